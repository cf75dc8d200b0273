// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "driftwarden/history/series.hpp"
#include "driftwarden/verdict/screening.hpp"

namespace driftwarden {

// Certificates of an instrument up to a day, in order of their dates.
std::vector<const Certificate*> certificates_of(const Book& book, Row instrument, Day as_of);

// Whether every point was found within the tolerance that the certificate states. Empty where it states none, or no
// point as found.
std::optional<bool> is_found_in_tolerance(const Certificate& certificate);

// The error that an instrument was found with, or left with, at each calibration, in percent of the true flow; of a
// thermometer in K, of a barometer in kPa:
//   as-found-error                 the point farthest from 0
//   as-found-error at 2 L/min, …   each point by its nominal flow
//   as-left-error at 2 L/min, …
// The first carries the steps from calibration to calibration where the instrument was adjusted; a phase begins after
// one that found it out of tolerance and adjusted it. Tolerance: the newest certificate's, else that of a rule about
// as-found.error.
std::vector<Series> certificate_series(const Screening& screening, Row instrument, Day as_of,
                                       const std::vector<PhaseStart>& starts);

// Days left until the instrument is due, from the day it is asked for. A series of one point, or none.
std::vector<Series> due_series(const Screening& screening, Row instrument, Day as_of);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "driftwarden/history/series.hpp"
#include "driftwarden/verdict/screening.hpp"

namespace driftwarden {

// Certificates of an instrument up to a day, in order of their dates.
std::vector<const Certificate*> certificates_of(const Book& book, Row instrument, Day as_of);

// How far from no error a certificate's points may be: by the newest of the certificates that says so, else by a rule
// about as-found.error; in percent.
Tolerance tolerance_of(const Screening& screening, const std::vector<const Certificate*>& certificates);
bool is_beyond(double percent, const Tolerance& tolerance);

// The point farthest from no error, and its error in percent of the true flow; nullptr and missing where none has an
// indication.
enum class Found { as_found, as_left };
const CertificatePoint* worst_point(const Certificate& certificate, Found when);
double error_percent(const CertificatePoint& point, Found when);

// The error that an instrument was found with, or left with, at each calibration, in percent of the true flow:
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

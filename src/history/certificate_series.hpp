// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "history/series.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// Certificates of an instrument up to a day, in order of their dates.
std::vector<const Certificate*> certificates_of(const Book& book, Row instrument, Day as_of);

enum class Found { as_found, as_left };

// A point of a certificate, whatever the instrument measures. Errors of flows are in percent of the true flow, those of
// temperatures in K, of pressures in kPa, of masses in mg.
struct CalibratedPoint {
  double nominal = missing;
  double reference = missing;
  double reference_as_found = missing;
  std::optional<double> as_found;
  std::optional<double> as_left;  // where nothing was adjusted, as it was found
  std::optional<double> expanded_uncertainty;
  bool is_flow = true;

  double error(Found when) const;
  bool is_adjusted() const { return as_left && as_found && error(Found::as_left) != error(Found::as_found); }
};

// Errors of what is no flow are differences in the unit of the figure, relative to nothing.
void set_unit_of(InstrumentKind kind, Series& series);

std::vector<CalibratedPoint> points_of(const Certificate& certificate);
// The point farthest from no error, if any has an indication.
std::optional<CalibratedPoint> worst_point(const Certificate& certificate, Found when);

// How far from no error a certificate's points may be, in the units of their errors: by the newest of the certificates
// that says so, else by a rule about as-found.error.
Tolerance tolerance_of(const Screening& screening, const std::vector<const Certificate*>& certificates);

// Whether every point was found within the tolerance that the certificate states. Empty where it states none, or no
// point as found.
std::optional<bool> is_found_in_tolerance(const Certificate& certificate);

// The error that an instrument was found with, or left with, at each calibration, in percent of the true flow; of a
// thermometer in K, of a barometer in kPa, of a balance in mg:
//   as-found-error                 the point farthest from 0
//   as-found-error at 2 L/min, …   each point by its nominal flow
//   as-left-error at 2 L/min, …
// As found they carry the steps from calibration to calibration where the instrument was adjusted, since the last of
// `services` that a calibration followed; a phase begins after each of these, and after a calibration that found it out
// of tolerance and adjusted it. Tolerance: the newest certificate's, else that of a rule about as-found.error.
std::vector<Series> certificate_series(const Screening& screening, Row instrument, Day as_of,
                                       const std::vector<PhaseStart>& services);

// Days left until the instrument is due, from the day it is asked for. A series of one point, or none.
std::vector<Series> due_series(const Screening& screening, Row instrument, Day as_of);

}  // namespace driftwarden

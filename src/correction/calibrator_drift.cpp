// SPDX-License-Identifier: MIT
#include "correction/calibrator_drift.hpp"

#include <cmath>

#include "correction/certificate_error.hpp"

namespace driftwarden {
namespace {

// The mean square of what the error changed by, over the points found; NaN where none was.
double mean_square_change(const Certificate& left, const Certificate& found) {
  const std::vector<ErrorPoint> before = error_curve(left);
  const std::vector<ErrorPoint> after = as_found_curve(found);
  if (before.empty()) return std::numeric_limits<double>::quiet_NaN();
  double sum = 0;
  for (const ErrorPoint& point : after) {
    const double change = point.error - error_at(before, point.indication_l_min).error;
    sum += change * change;
  }
  return sum / static_cast<double>(after.size());
}

}  // namespace

std::vector<CalibratorDrift> calibrator_drifts(std::span<const Certificate> certificates,
                                               const CertificateHistory& history, std::size_t instruments) {
  std::vector<CalibratorDrift> drifts(certificates.size());
  for (Row instrument = 0; instrument < instruments; ++instrument) {
    double squares = 0;
    double days_squared = 0;
    std::size_t intervals = 0;
    const Certificate* left = nullptr;
    for (const std::int32_t place : history.of(instrument)) {
      const Certificate& found = certificates[static_cast<std::size_t>(place)];
      const double days = left == nullptr ? 0 : static_cast<double>(found.calibrated - left->calibrated);
      const double change = days > 0 ? mean_square_change(*left, found) : std::numeric_limits<double>::quiet_NaN();
      if (!std::isnan(change)) {
        squares += change;
        days_squared += days * days;
        ++intervals;
      }
      if (intervals > 0) drifts[static_cast<std::size_t>(place)] = {std::sqrt(squares / days_squared), intervals};
      left = &found;
    }
  }
  return drifts;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "statistics/cusum.hpp"

#include <algorithm>
#include <cmath>

namespace driftwarden {

CusumDesign cusum_design_in_sigmas(double target, double sigma, double k, double h) {
  return {target, k * sigma, h * sigma};
}

std::vector<CusumPoint> cusum(std::span<const double> values, const CusumDesign& design) {
  std::vector<CusumPoint> points;
  points.reserve(values.size());
  CusumPoint point{0, 0, 0, false, false};
  for (const double value : values) {
    const bool is_missing = std::isnan(value);
    if (!is_missing) {
      const double deviation = value - design.target;
      point.high = std::max(0.0, point.high + deviation - design.slack);
      point.low = std::max(0.0, point.low - deviation - design.slack);
      point.sum += deviation;
    }
    point.is_high_signal = !is_missing && point.high > design.decision_interval;
    point.is_low_signal = !is_missing && point.low > design.decision_interval;
    points.push_back(point);
  }
  return points;
}

}  // namespace driftwarden

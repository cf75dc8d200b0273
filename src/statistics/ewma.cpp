// SPDX-License-Identifier: MIT
#include "statistics/ewma.hpp"

#include <cmath>

#include "quantity/elementary.hpp"

namespace driftwarden {

namespace {

// Half-width of the limits after so many values; any number of values where the limits don't widen.
double reach(const EwmaDesign& design, int values_so_far) {
  const double settled = design.lambda / (2 - design.lambda);
  const double grown = design.has_widening_limits ? 1 - elementary::pow(1 - design.lambda, 2 * values_so_far) : 1;
  return design.width * design.sigma * std::sqrt(settled * grown);
}

}  // namespace

std::vector<EwmaPoint> ewma(std::span<const double> values, const EwmaDesign& design) {
  std::vector<EwmaPoint> points;
  points.reserve(values.size());
  double average = design.target;
  int values_so_far = 0;
  for (const double value : values) {
    const bool is_missing = std::isnan(value);
    if (!is_missing) {
      average = design.lambda * value + (1 - design.lambda) * average;
      ++values_so_far;
    }
    const double half = reach(design, values_so_far);
    const bool is_signal = !is_missing && std::fabs(average - design.target) > half;
    points.push_back({average, design.target - half, design.target + half, is_signal});
  }
  return points;
}

}  // namespace driftwarden

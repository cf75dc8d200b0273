// SPDX-License-Identifier: MIT
#include "statistics/reliability.hpp"

#include <cmath>
#include <limits>

#include "quantity/elementary.hpp"

namespace driftwarden {

namespace {

bool is_inside_zero_to_one(double share) { return share > 0 && share < 1; }

// Slope of ln L in the failure rate: falls from +∞ to -(the time of those in tolerance).
double slope_of_log_likelihood(std::span<const IntervalResult> results, double rate) {
  double slope = 0;
  for (const IntervalResult& result : results)
    slope += result.is_in_tolerance ? -result.interval : result.interval / elementary::expm1(rate * result.interval);
  return slope;
}

// Where the slope vanishes, to the last digit. Halving ends when no double lies between.
double most_likely_rate(std::span<const IntervalResult> results, double low, double high) {
  while (true) {
    const double middle = low + (high - low) / 2;
    if (!(middle > low && middle < high)) return middle;
    (slope_of_log_likelihood(results, middle) > 0 ? low : high) = middle;
  }
}

}  // namespace

double failure_rate_of(std::span<const IntervalResult> results) {
  double failures = 0;
  double time = 0;
  double time_in_tolerance = 0;
  for (const IntervalResult& result : results) {
    if (!(result.interval > 0)) return no_figure;
    failures += result.is_in_tolerance ? 0 : 1;
    time += result.interval;
    time_in_tolerance += result.is_in_tolerance ? result.interval : 0;
  }
  if (results.empty()) return no_figure;
  if (failures == 0) return 0;
  if (time_in_tolerance == 0) return std::numeric_limits<double>::infinity();
  return most_likely_rate(results, failures / time, failures / time_in_tolerance);
}

double interval_for_target(double failure_rate, double target) {
  if (!(failure_rate >= 0) || !is_inside_zero_to_one(target)) return no_figure;
  return -elementary::log(target) / failure_rate;
}

}  // namespace driftwarden

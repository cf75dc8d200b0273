// SPDX-License-Identifier: MIT
#include "statistics/global_risk.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/elementary.hpp"
#include "statistics/bivariate_normal.hpp"
#include "statistics/normal_distribution.hpp"

namespace driftwarden {
namespace {

// In standard deviations from the mean; without any, on which side of it an end lies. The mean itself is inside.
Bounds standardized(const Bounds& interval, double mean, double s) {
  if (s > 0) return {(interval.lower - mean) / s, (interval.upper - mean) / s};
  constexpr double infinite = std::numeric_limits<double>::infinity();
  return {interval.lower <= mean ? -infinite : infinite, interval.upper >= mean ? infinite : -infinite};
}

// Whichever tail is the smaller is taken, so that it keeps its digits.
double share_between(const Bounds& z) {
  if (!(z.lower < z.upper)) return 0;
  if (z.lower > 0) return normal_cdf(-z.lower) - normal_cdf(-z.upper);
  return normal_cdf(z.upper) - normal_cdf(z.lower);
}

Bounds in_both(const Bounds& a, const Bounds& b) { return {std::max(a.lower, b.lower), std::min(a.upper, b.upper)}; }

double inside_both(const Bounds& true_z, const Bounds& measured_z, const Correlation& correlation) {
  if (!(true_z.lower < true_z.upper) || !(measured_z.lower < measured_z.upper)) return 0;
  const auto below = [&](double x, double y) { return bivariate_normal_cdf(x, y, correlation); };
  return below(true_z.upper, measured_z.upper) - below(true_z.lower, measured_z.upper) -
         below(true_z.upper, measured_z.lower) + below(true_z.lower, measured_z.lower);
}

}  // namespace

GlobalRisk global_risk(const MeasuredPopulation& of, const Bounds& tolerance, const Bounds& acceptance) {
  if (!(of.s >= 0) || !(of.u >= 0)) return {};
  const double s_measured = elementary::hypot(of.s, of.u);
  const Bounds true_z = standardized(tolerance, of.mean, of.s);
  const Bounds measured_z = standardized(acceptance, of.mean, s_measured);
  const double within = share_between(true_z);
  const double accepted = share_between(measured_z);
  const bool are_one = !(of.s > 0) || !(of.u > 0);  // one of the two decides: there is nothing to correlate
  const double both = !are_one      ? inside_both(true_z, measured_z, {of.s / s_measured, of.u / s_measured})
                      : !(of.u > 0) ? share_between(in_both(true_z, measured_z))
                                    : within * accepted;
  return {1 - within, accepted, std::max(0.0, accepted - both), std::max(0.0, within - both)};
}

}  // namespace driftwarden

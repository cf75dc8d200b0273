// SPDX-License-Identifier: MIT
#include "statistics/mean_and_spread.hpp"

#include <algorithm>
#include <boost/accumulators/accumulators.hpp>
#include <boost/accumulators/statistics/mean.hpp>
#include <boost/accumulators/statistics/stats.hpp>
#include <boost/accumulators/statistics/variance.hpp>
#include <cmath>

#ifdef __FAST_MATH__
#error "fast-math drops NaN and reorders sums: these figures would be wrong"
#endif

namespace driftwarden {

namespace {

namespace accumulate = boost::accumulators;
// Immediate, never lazy: the lazy variance takes a difference of sums of squares and comes out as -2 where 0.01 is
// right (NIST data set NumAcc4).
using MeanAndVariance =
    accumulate::accumulator_set<double, accumulate::stats<accumulate::tag::mean(accumulate::immediate),
                                                          accumulate::tag::variance(accumulate::immediate)>>;

// Below and above these a variance has lost digits, or all of them, though s itself can be written.
constexpr double smallest_full_variance = 1e-290;
constexpr double largest_full_variance = 1e290;

// Of (x - origin) · scale. Values close to the origin lose no digits however far that lies from zero.
void add_moments(std::span<const double> values, double origin, double scale, MeanAndSpread& result) {
  MeanAndVariance sums;
  for (const double value : values) sums((value - origin) * scale);
  const auto n = static_cast<double>(values.size());
  result.mean = origin + accumulate::mean(sums) / scale;
  // The library divides by n.
  if (values.size() > 1) result.s = std::sqrt(accumulate::variance(sums) * n / (n - 1)) / scale;
}

void add_ends(std::span<const double> values, MeanAndSpread& result) {
  double smallest = values.front();
  double largest = values.front();
  for (const double value : values) {
    smallest = value < smallest ? value : smallest;
    largest = value > largest ? value : largest;
  }
  result.smallest = smallest;
  result.largest = largest;
}

// A value that is not finite makes the sums so.
bool has_lost_digits(const MeanAndSpread& result) {
  const double variance = result.s * result.s;
  return !(variance > smallest_full_variance && variance < largest_full_variance);
}

// 1/range as a power of two, so that scaling loses nothing.
double scale_to_one(double range) { return std::ldexp(1.0, -std::clamp(std::ilogb(range), -1020, 1020)); }

MeanAndSpread of_nothing(std::size_t n) {
  MeanAndSpread result;
  result.n = n;
  return result;
}

}  // namespace

bool are_finite(std::span<const double> values) {
  return std::ranges::all_of(values, [](double value) { return std::isfinite(value); });
}

bool are_of_one_size(std::span<const MeanAndSpread> sets) {
  return std::ranges::all_of(sets, [&](const MeanAndSpread& set) { return set.n == sets.front().n; });
}

double MeanAndSpread::relative_s() const {
  return mean == 0 ? std::numeric_limits<double>::quiet_NaN() : s / std::fabs(mean);
}

MeanAndSpread mean_and_spread(std::span<const double> values) {
  MeanAndSpread result = of_nothing(values.size());
  if (values.empty()) return result;
  add_moments(values, values.front(), 1, result);
  add_ends(values, result);
  if (!has_lost_digits(result)) return result;
  if (!are_finite(values)) return of_nothing(values.size());
  if (result.range() > 0) add_moments(values, values.front(), scale_to_one(result.range()), result);
  return result;
}

double lag_one_autocorrelation(std::span<const double> values) {
  const MeanAndSpread all = mean_and_spread(values);
  if (!(all.s > 0)) return std::numeric_limits<double>::quiet_NaN();
  // In units of s: deviations of 1e-200 would have no square.
  double products = 0;
  double squares = 0;
  double previous = 0;
  for (const double value : values) {
    const double deviation = (value - all.mean) / all.s;
    products += previous * deviation;
    squares += deviation * deviation;
    previous = deviation;
  }
  return products / squares;
}

}  // namespace driftwarden

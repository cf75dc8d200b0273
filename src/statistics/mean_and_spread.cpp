// SPDX-License-Identifier: MIT
#include "driftwarden/statistics/mean_and_spread.hpp"

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

struct Moments {
  double mean = 0;
  double s = 0;
};

// Of (x - origin) · scale, brought back. Values close to the origin lose no digits however far that lies from zero.
Moments moments_about(double origin, double scale, std::span<const double> values) {
  MeanAndVariance sums;
  for (const double value : values) sums((value - origin) * scale);
  const auto n = static_cast<double>(values.size());
  const double sample_variance = accumulate::variance(sums) * n / (n - 1);  // the library divides by n
  return {origin + accumulate::mean(sums) / scale, std::sqrt(sample_variance) / scale};
}

// 1/range as a power of two, so that scaling loses nothing.
double scale_to_one(double range) { return std::ldexp(1.0, -std::clamp(std::ilogb(range), -1020, 1020)); }

Moments moments(std::span<const double> values, double range) {
  const double rough_variance = range * range;
  const bool digits_are_kept = rough_variance > smallest_full_variance && rough_variance < largest_full_variance;
  return moments_about(values.front(), digits_are_kept || range == 0 ? 1.0 : scale_to_one(range), values);
}

bool all_are_finite(std::span<const double> values) {
  return std::ranges::all_of(values, [](double value) { return std::isfinite(value); });
}

}  // namespace

double MeanAndSpread::relative_s() const {
  return mean == 0 ? std::numeric_limits<double>::quiet_NaN() : s / std::fabs(mean);
}

MeanAndSpread mean_and_spread(std::span<const double> values) {
  MeanAndSpread result;
  result.n = values.size();
  if (values.empty() || !all_are_finite(values)) return result;
  const auto [smallest, largest] = std::ranges::minmax(values);
  result.smallest = smallest;
  result.largest = largest;
  if (values.size() == 1) {
    result.mean = smallest;
    return result;
  }
  const Moments found = moments(values, result.range());
  result.mean = found.mean;
  result.s = found.s;
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

// SPDX-License-Identifier: MIT
#include "statistics/control_limits.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "statistics/chart_constants.hpp"
#include "statistics/median.hpp"
#include "statistics/normal_distribution.hpp"
#include "statistics/pooled_spread.hpp"
#include "statistics/rounding_noise.hpp"

namespace driftwarden {

namespace {

std::vector<double> present(std::span<const double> values) {
  std::vector<double> kept;
  std::ranges::copy_if(values, std::back_inserter(kept), [](double value) { return !std::isnan(value); });
  return kept;
}

ControlLimits three_sigma_limits(double centre, double sigma) {
  return {centre, sigma, centre - 3 * sigma, centre + 3 * sigma};
}

// Limits of a figure that can't be negative.
ControlLimits limits_of_a_spread(double centre, double sigma) {
  return {centre, sigma, std::max(0.0, centre - 3 * sigma), centre + 3 * sigma};
}

double sigma_from(std::span<const double> ranges, MovingRangeAverage average, double d2_of_two) {
  if (average == MovingRangeAverage::mean) return mean_and_spread(ranges).mean / d2_of_two;
  return median(ranges) / (std::sqrt(2.0) * normal_quantile(0.75));
}

std::vector<MeanAndSpread> sets_of_two_or_more(std::span<const MeanAndSpread> sets) {
  std::vector<MeanAndSpread> kept;
  std::ranges::copy_if(sets, std::back_inserter(kept), [](const MeanAndSpread& set) { return std::isfinite(set.s); });
  return kept;
}

std::vector<double> means_of(std::span<const MeanAndSpread> sets) {
  std::vector<double> means;
  for (const MeanAndSpread& set : sets) means.push_back(set.mean);
  return means;
}

double mean_of_means(std::span<const MeanAndSpread> sets) { return mean_and_spread(means_of(sets)).mean; }

// A spread that is more than rounding left of values alike.
bool is_spread_of(std::span<const double> values, double spread) {
  return std::isfinite(spread) && spread > rounding_noise(values);
}

double mean_of_s(std::span<const MeanAndSpread> sets) {
  double sum = 0;
  for (const MeanAndSpread& set : sets) sum += set.s;
  return sum / static_cast<double>(sets.size());
}

double weighted_mean(std::span<const MeanAndSpread> sets) {
  double sum = 0;
  double n = 0;
  for (const MeanAndSpread& set : sets) {
    sum += static_cast<double>(set.n) * (set.mean - sets.front().mean);
    n += static_cast<double>(set.n);
  }
  return sets.front().mean + sum / n;
}

}  // namespace

std::vector<double> moving_ranges(std::span<const double> values) {
  std::vector<double> ranges;
  for (std::size_t i = 1; i < values.size(); ++i) ranges.push_back(std::fabs(values[i] - values[i - 1]));
  return ranges;
}

std::optional<ControlCharts> individuals_limits(std::span<const double> baseline, MovingRangeAverage average) {
  const ChartConstants pair = *chart_constants(2);
  const std::vector<double> values = present(baseline);
  const double sigma = sigma_from(present(moving_ranges(baseline)), average, pair.d2);
  if (!is_spread_of(values, sigma)) return std::nullopt;
  return ControlCharts{three_sigma_limits(mean_and_spread(values).mean, sigma),
                       limits_of_a_spread(pair.d2 * sigma, pair.d3 * sigma), values.size()};
}

std::optional<SpreadBaseline> spread_baseline(std::span<const MeanAndSpread> sets) {
  const std::vector<MeanAndSpread> usable = sets_of_two_or_more(sets);
  if (usable.empty()) return std::nullopt;
  SpreadBaseline baseline;
  baseline.sets = usable.size();
  if (are_of_one_size(usable)) {
    baseline.centre = mean_of_means(usable);
    baseline.s = mean_of_s(usable);
  } else {
    baseline.centre = weighted_mean(usable);
    baseline.s = pooled_spread(usable).s;
  }
  if (!is_spread_of(means_of(usable), baseline.s)) return std::nullopt;
  return baseline;
}

ControlCharts mean_and_s_limits(const SpreadBaseline& baseline, std::size_t n) {
  const double mean_s = c4(n);
  const double sigma = baseline.s / mean_s;
  return {three_sigma_limits(baseline.centre, sigma / std::sqrt(static_cast<double>(n))),
          limits_of_a_spread(baseline.s, sigma * std::sqrt(1 - mean_s * mean_s)), baseline.sets};
}

}  // namespace driftwarden

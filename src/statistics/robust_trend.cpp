// SPDX-License-Identifier: MIT
#include "statistics/robust_trend.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <vector>

#include "statistics/mean_and_spread.hpp"
#include "statistics/median.hpp"
#include "statistics/normal_distribution.hpp"
#include "statistics/rounding_noise.hpp"

namespace driftwarden {

namespace {

constexpr std::size_t most_for_exact = 10;

// Σ g(g - 1)(2g + 5) over the groups of equal values.
double tie_sum(std::span<const double> values) {
  std::vector<double> sorted(values.begin(), values.end());
  std::ranges::sort(sorted);
  double sum = 0;
  for (auto first = sorted.begin(); first != sorted.end();) {
    const auto last = std::upper_bound(first, sorted.end(), *first);
    const auto g = static_cast<double>(last - first);
    sum += g * (g - 1) * (2 * g + 5);
    first = last;
  }
  return sum;
}

double variance_of_s(std::size_t count, double ties) {
  const auto n = static_cast<double>(count);
  return (n * (n - 1) * (2 * n + 5) - ties) / 18;
}

std::vector<double> sorted_pair_slopes(std::span<const double> x, std::span<const double> y) {
  std::vector<double> slopes;
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = i + 1; j < x.size(); ++j) {
      if (x[i] != x[j]) slopes.push_back((y[j] - y[i]) / (x[j] - x[i]));
    }
  }
  std::ranges::sort(slopes);
  return slopes;
}

// Limits by rank among the sorted slopes; none where a rank falls outside them.
Bounds slopes_of_rank(std::span<const double> slopes, double half_width) {
  const auto n = static_cast<double>(slopes.size());
  const double lower_rank = std::nearbyint((n - half_width) / 2);
  const double upper_rank = std::nearbyint((n + half_width) / 2) + 1;
  if (!(lower_rank >= 1 && upper_rank <= n)) return {};
  return {slopes[static_cast<std::size_t>(lower_rank) - 1], slopes[static_cast<std::size_t>(upper_rank) - 1]};
}

double median_of_offsets(std::span<const double> x, std::span<const double> y, double slope) {
  std::vector<double> offsets(y.begin(), y.end());
  for (std::size_t i = 0; i < offsets.size(); ++i) offsets[i] -= slope * x[i];
  return median(offsets);
}

std::int64_t score(std::span<const double> y) {
  std::int64_t s = 0;
  for (std::size_t i = 0; i < y.size(); ++i) {
    for (std::size_t j = i + 1; j < y.size(); ++j) s += (y[j] > y[i] ? 1 : 0) - (y[j] < y[i] ? 1 : 0);
  }
  return s;
}

// How many of the n! orders have each number of inversions: each new value goes before 0 to k of those in place.
std::vector<double> orders_by_inversions(std::size_t n) {
  std::vector<double> count{1};
  for (std::size_t k = 1; k < n; ++k) {
    std::vector<double> next(count.size() + k, 0.0);
    for (std::size_t i = 0; i < count.size(); ++i) {
      for (std::size_t before = 0; before <= k; ++before) next[i + before] += count[i];
    }
    count = std::move(next);
  }
  return count;
}

double exact_p(std::size_t n, std::int64_t s) {
  const std::vector<double> orders = orders_by_inversions(n);
  const auto pairs = static_cast<std::int64_t>(orders.size()) - 1;
  const std::int64_t most_inversions = (pairs - std::abs(s)) / 2;
  double extreme = 0;
  double all = 0;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    all += orders[i];
    if (static_cast<std::int64_t>(i) <= most_inversions) extreme += orders[i];
  }
  return std::min(1.0, 2 * extreme / all);
}

}  // namespace

std::optional<RobustTrend> theil_sen(std::span<const double> x, std::span<const double> y, double coverage,
                                     double inflation) {
  assert(x.size() == y.size());
  if (!are_finite(x) || !are_finite(y)) return std::nullopt;
  const std::vector<double> values = without_rounding_noise(y);
  const std::vector<double> slopes = sorted_pair_slopes(x, values);
  if (slopes.empty()) return std::nullopt;
  RobustTrend trend;
  trend.slope = median(slopes);
  trend.intercept = median_of_offsets(x, values, trend.slope);
  const double variance = inflation * variance_of_s(x.size(), tie_sum(values) + tie_sum(x));
  const double z = -normal_quantile((1 - coverage) / 2);
  if (variance > 0) trend.slope_bounds = slopes_of_rank(slopes, z * std::sqrt(variance));
  return trend;
}

TrendTest mann_kendall(std::span<const double> y, double inflation) {
  if (y.size() < 2 || !are_finite(y)) return {};
  const std::vector<double> values = without_rounding_noise(y);
  const double ties = tie_sum(values);
  TrendTest test;
  test.s = score(values);
  test.variance = inflation * variance_of_s(y.size(), ties);
  const double towards_zero = test.s > 0 ? 1 : test.s < 0 ? -1 : 0;
  if (test.variance > 0) test.z = (static_cast<double>(test.s) - towards_zero) / std::sqrt(test.variance);
  if (test.variance == 0) test.z = 0;  // all values equal: every order is as likely as this one
  test.is_exact = ties == 0 && inflation == 1 && y.size() <= most_for_exact;
  test.p = test.is_exact ? exact_p(y.size(), test.s) : 2 * normal_cdf(-std::fabs(test.z));
  return test;
}

}  // namespace driftwarden

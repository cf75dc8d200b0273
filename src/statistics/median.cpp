// SPDX-License-Identifier: MIT
#include "statistics/median.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "statistics/bounds.hpp"

namespace driftwarden {

namespace {

bool has_nan(std::span<const double> values) {
  return std::ranges::any_of(values, [](double value) { return std::isnan(value); });
}

// Rank 1 is the smallest value.
double rank_of(QuantileRank rank, double n, double probability) {
  switch (rank) {
    case QuantileRank::n_plus_one:
      return (n + 1) * probability;
    case QuantileRank::n_minus_one:
      return (n - 1) * probability + 1;
    case QuantileRank::median_unbiased:
      return (n + 1.0 / 3) * probability + 1.0 / 3;
  }
  return no_figure;
}

}  // namespace

double median(std::span<const double> values) {
  if (values.empty() || has_nan(values)) return no_figure;
  std::vector<double> copy(values.begin(), values.end());
  const auto middle = copy.begin() + static_cast<std::ptrdiff_t>(copy.size() / 2);
  std::nth_element(copy.begin(), middle, copy.end());
  if (copy.size() % 2 == 1) return *middle;
  const double below = *std::max_element(copy.begin(), middle);
  return below + (*middle - below) / 2;
}

double quantile(std::span<const double> values, double probability, QuantileRank rank) {
  if (values.empty() || has_nan(values) || !(probability >= 0 && probability <= 1)) return no_figure;
  std::vector<double> sorted(values.begin(), values.end());
  std::ranges::sort(sorted);
  const auto n = static_cast<double>(sorted.size());
  const double place = std::clamp(rank_of(rank, n, probability), 1.0, n);
  const auto below = static_cast<std::size_t>(place) - 1;
  if (below + 1 == sorted.size()) return sorted.back();
  const double fraction = place - std::floor(place);
  return sorted[below] + fraction * (sorted[below + 1] - sorted[below]);
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "statistics/rounding_noise.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

#include "quantity/limit.hpp"

namespace driftwarden {

double rounding_noise(std::span<const double> values) {
  double largest = 1;
  for (const double value : values) largest = std::fmax(largest, std::fabs(value));
  return on_a_limit_of_zero * largest;
}

std::vector<double> without_rounding_noise(std::span<const double> values) {
  std::vector<double> kept(values.begin(), values.end());
  std::vector<std::size_t> order(kept.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::erase_if(order, [&](std::size_t i) { return std::isnan(values[i]); });
  std::ranges::sort(order, {}, [&](std::size_t i) { return values[i]; });
  const double noise = rounding_noise(values);
  for (std::size_t i = 1; i < order.size(); ++i) {
    const double smaller = kept[order[i - 1]];
    if (kept[order[i]] - smaller <= noise) kept[order[i]] = smaller;
  }
  return kept;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "statistics/binomial.hpp"

#include <algorithm>
#include <vector>

#include "statistics/special_functions.hpp"

namespace driftwarden {

double binomial_at_least(std::size_t hits, std::size_t n, double probability) {
  if (!(probability >= 0 && probability <= 1)) return no_figure;
  if (hits == 0) return 1;
  if (hits > n) return 0;
  // The probability that the `hits`-th smallest of n uniform numbers lies below `probability`.
  return special::beta_below(static_cast<double>(hits), static_cast<double>(n - hits + 1), probability);
}

double at_least_of(std::size_t hits, std::span<const double> probabilities) {
  // chance[k]: k hits so far; the last place gathers `hits` or more.
  std::vector<double> chance(hits + 1, 0.0);
  chance[0] = 1;
  for (const double p : probabilities) {
    if (!(p >= 0 && p <= 1)) return no_figure;
    if (hits > 0) chance[hits] += chance[hits - 1] * p;
    for (std::size_t k = hits; k-- > 1;) chance[k] = chance[k] * (1 - p) + chance[k - 1] * p;
    if (hits > 0) chance[0] *= 1 - p;
  }
  return std::min(chance[hits], 1.0);
}

Bounds clopper_pearson(std::size_t hits, std::size_t n, double confidence) {
  if (n == 0 || hits > n || !(confidence > 0 && confidence < 1)) return {};
  const double tail = (1 - confidence) / 2;
  const auto hit = static_cast<double>(hits);
  const auto miss = static_cast<double>(n - hits);
  return {hits == 0 ? 0 : special::beta_below_inverse(hit, miss + 1, tail),
          hits == n ? 1 : special::beta_above_inverse(hit + 1, miss, tail)};
}

}  // namespace driftwarden

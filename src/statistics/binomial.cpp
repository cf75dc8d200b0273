// SPDX-License-Identifier: MIT
#include "statistics/binomial.hpp"

#include "statistics/special_functions.hpp"

namespace driftwarden {

double binomial_at_least(std::size_t hits, std::size_t n, double probability) {
  if (!(probability >= 0 && probability <= 1)) return no_figure;
  if (hits == 0) return 1;
  if (hits > n) return 0;
  // The probability that the `hits`-th smallest of n uniform numbers lies below `probability`.
  return special::beta_below(static_cast<double>(hits), static_cast<double>(n - hits + 1), probability);
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

// SPDX-License-Identifier: MIT
#include "statistics/binomial.hpp"

#include "statistics/bounds.hpp"
#include "statistics/special_functions.hpp"

namespace driftwarden {

double binomial_at_least(std::size_t hits, std::size_t n, double probability) {
  if (!(probability >= 0 && probability <= 1)) return no_figure;
  if (hits == 0) return 1;
  if (hits > n) return 0;
  // The probability that the `hits`-th smallest of n uniform numbers lies below `probability`.
  return special::beta_below(static_cast<double>(hits), static_cast<double>(n - hits + 1), probability);
}

}  // namespace driftwarden

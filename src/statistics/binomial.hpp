// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

#include "statistics/bounds.hpp"

namespace driftwarden {

// Probability of `hits` or more in n independent trials. NaN for a probability outside 0 to 1.
double binomial_at_least(std::size_t hits, std::size_t n, double probability);

// Exact confidence limits of a share.
//
//   lower = B(α/2; x, n - x + 1)        upper = B(1 - α/2; x + 1, n - x)
//
//   x, n     hits and trials      α  1 - confidence      B  quantile of the beta distribution
//   Source   Clopper and Pearson, Biometrika 26 (1934) 404
//   Valid    independent trials of one probability; 0 ≤ x ≤ n, n ≥ 1; conservative (holds at least the confidence)
//   Example  34 of 40 at 0.90  ->  0.72526 to 0.93260
Bounds clopper_pearson(std::size_t hits, std::size_t n, double confidence);

}  // namespace driftwarden

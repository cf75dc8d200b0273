// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace driftwarden {

// Probability of `hits` or more in n independent trials. NaN for a probability outside 0 to 1.
double binomial_at_least(std::size_t hits, std::size_t n, double probability);

}  // namespace driftwarden

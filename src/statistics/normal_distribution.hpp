// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// The standard normal distribution: probability of a value up to z, and the value not exceeded with a
// probability (NaN outside 0 to 1, infinite at 0 and 1).
double normal_cdf(double z);
double normal_quantile(double probability);

}  // namespace driftwarden

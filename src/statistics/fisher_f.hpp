// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// Fisher's F distribution. NaN for degrees of freedom not above 0 or an impossible probability.
double fisher_f_upper_quantile(double tail, double dof_above, double dof_below);  // exceeded with probability `tail`

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// The chi-squared distribution. NaN for degrees of freedom not above 0, a negative value or an impossible probability.
double chi_squared_cdf(double value, double dof);
double chi_squared_upper_tail(double value, double dof);  // probability of a larger value

}  // namespace driftwarden

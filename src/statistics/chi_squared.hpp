// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// The chi-squared distribution, of values from 0 up to infinity and finite degrees of freedom above 0; NaN otherwise.
double chi_squared_cdf(double value, double dof);
double chi_squared_upper_tail(double value, double dof);  // probability of a larger value

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

// The functions behind the distributions, as Boost.Math has them, with the same bits on every machine: worked out over
// PortableNumber. Good to a few units of the last of 16 digits. No other room includes Boost.Math.
//
// What is outside a function's domain, or a sum that does not come to its end, is NaN; what is too large, infinite.
namespace driftwarden::special {

double erfc(double x);
double erfc_inverse(double value);

// Γ(x), and Γ(x)/Γ(x + delta).
double gamma(double x);
double gamma_ratio(double x, double delta);

// The incomplete gamma function of shape a, from 0 to x and from x on, as shares of the whole.
double gamma_below(double a, double x);
double gamma_above(double a, double x);

// The incomplete beta function from 0 to x as a share of the whole.
double beta_below(double a, double b, double x);

double student_t_cdf(double dof, double t);
double student_t_quantile(double dof, double probability);

}  // namespace driftwarden::special

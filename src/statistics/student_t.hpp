// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// Student's t distribution. Degrees of freedom are any number above 0, infinite included (the normal distribution);
// anything else, or a probability outside 0 to 1, gives NaN.

// Probability of a value up to t.
double student_t_cdf(double t, double dof);

// The value that is not exceeded with this probability. Quantiles last asked for are kept, each thread its own.
double student_t_quantile(double probability, double dof);

// Probability of a value as far from 0 as t, on either side.
double student_t_two_sided_p(double t, double dof);

// Half-width, in standard uncertainties, of the interval that holds a share `coverage`.
//
//   k = t_(1 + p)/2 (ν)
//
//   p        coverage, 0 to 1      ν  degrees of freedom
//   Source   JCGM 100:2008 (GUM) G.3.2 and table G.2
//   Valid    a normally distributed quantity whose u was estimated with ν degrees of freedom
//   Example  p 0.95, ν 4  ->  2.776
double coverage_factor(double coverage, double dof);

}  // namespace driftwarden

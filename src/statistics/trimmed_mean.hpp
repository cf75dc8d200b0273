// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>

#include "statistics/bounds.hpp"

namespace driftwarden {

// A mean that a few wild values do not move.
//
//   x̄_t = mean of the n - 2g values in the middle,   g = ⌊n/5⌋
//   u = √( SS_w / (h (h - 1)) ),   h = n - 2g,   ν = 0.8 (h - 1); where g is 0, ν = n - 1
//
//   SS_w     sum of squares about their mean of all values, with the g smallest (largest) taken for the next one
//   Source   Yuen, Biometrika 61 (1974) 165, with ν = h - 1 (from memory). With that the tails come up to 1.8 times too
//            often, as the test simulates: a fifth less is this project's choice
//   Valid    n ≥ 2 (below n 5 it is the plain mean), values that lie evenly about their middle, of one spread or
//            several
//   Example  1, 2, 3, 4, 100  ->  x̄_t 3, u 0.8165, ν 1.6
struct TrimmedMean {
  double mean = no_figure;
  double u = no_figure;
  double dof = no_figure;
};
TrimmedMean trimmed_mean(std::span<const double> values);

// The difference of two of them, the first less the second.
//
//   u² = u_1² + u_2²,   ν after Welch and Satterthwaite
//
//   Source   as above
//   Valid    as above, of each
//   Example  (1, 2, 3, 4, 100) - (1, 2, 3)  ->  1, u 1, ν 3
TrimmedMean difference_of(const TrimmedMean& one, const TrimmedMean& other);

// How often chance makes so large a mean, on either side, where the truth is as far from 0 as is allowed.
//
//   p = 2 P(t_ν > (|x̄| - δ)/u), at most 1
//
//   δ        allowed distance from 0, same unit
//   Source   Student's test of a mean, against the nearer end of an interval; with δ 0 the two-sided test
//   Valid    u above 0, else NaN
//   Example  3 with u 0.8165, ν 1.6, δ 0  ->  0.0925; δ 1  ->  0.1645
double p_beyond(const TrimmedMean& mean, double allowed);

}  // namespace driftwarden

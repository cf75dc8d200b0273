// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "statistics/bounds.hpp"
#include "statistics/mean_and_spread.hpp"
#include "statistics/outliers.hpp"

namespace driftwarden {

struct PooledSpread {
  double s = no_figure;
  double dof = 0;
};

// One standard deviation out of several sets.
//
//   s_p = √( Σ(n_i - 1)s_i² / Σ(n_i - 1) ),   ν = Σ(n_i - 1)
//
//   n_i, s_i number and standard deviation of set i
//   Source   JCGM 100:2008 (GUM) 4.2.4; ISO 5725-2 (common practice)
//   Valid    sets of one true spread; sets of fewer than two values say nothing and are passed over
//   Example  s 0.003 of 5 and 0.001 of 3  ->  0.002517, ν 6
PooledSpread pooled_spread(std::span<const MeanAndSpread> sets);

// Share of the sum of variances that the largest of `sets` variances exceeds by chance.
//
//   C_crit = 1 / (1 + (l - 1)/F),   F = upper α/l point of F(n - 1, (n - 1)(l - 1))
//
//   l, n     sets, and values in each      α  significance level
//   Source   Cochran's test as in ISO 5725-2
//   Valid    l ≥ 2 sets of n ≥ 2 values each; NaN otherwise
//   Example  8 sets of 3 at 0.05  ->  0.5157
double cochran_critical(std::size_t sets, std::size_t values_in_each, double significance);

// The largest variance's share of their sum against cochran_critical. Empty: sets of unequal size, fewer than two, or
// all without spread.
std::optional<OutlierCheck> cochran(std::span<const MeanAndSpread> sets, double significance);

struct SpreadAgainstHistory {
  double q = no_figure;
  double dof = 0;
  double lower_p = no_figure;  // probability of so small a spread
  double upper_p = no_figure;  // probability of so large a spread
};

// Spread of sets against the spread their instrument is known for.
//
//   Q = Σ(n_i - 1)s_i² / σ²  ~  χ² with Σ(n_i - 1) degrees of freedom
//
//   σ        standard deviation known from independent history
//   Source   NIST/SEMATECH e-Handbook 7.2.3.1
//   Valid    normally distributed values; σ not from the same sets; a coarse display makes small spreads normal
//   Example  s .0012 .0009 .0015 .0008 .0011 .0010 of 5 each, σ .0029  ->  Q 3.496, lower p 3.4e-7
SpreadAgainstHistory spread_against_history(std::span<const MeanAndSpread> sets, double sigma);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "statistics/bounds.hpp"

namespace driftwarden {

struct RobustTrend {
  double slope = no_figure;
  double intercept = no_figure;  // median of y - slope · x
  Bounds slope_bounds;           // NaN below five points, which can't bear limits of 95 %
};

// Slope that a gross outlier can't move.
//
//   b = median of (y_j - y_i)/(x_j - x_i) over all pairs with different x
//   limits: the slopes of rank (N - C)/2 and (N + C)/2 + 1, rounded, C = z·√(V·var S)
//
//   N        number of slopes      z  normal quantile      var S  as of mann_kendall, with ties of y and of x
//   Source   Theil (1950); Sen, J. Am. Stat. Assoc. 63 (1968) 1379; Gilbert, Statistical Methods for Environmental
//            Pollution Monitoring (1987) 16.5
//   Valid    two or more different x; N grows with n², so not for thousands of points. Empty otherwise. Values of y
//            that differ by no more than rounding_noise are ties.
//   Example  0.05 0.21 0.30 0.52 0.61 0.83 at 0 12 24 37 49 60  ->  0.012703, intercept 0.05
std::optional<RobustTrend> theil_sen(std::span<const double> x, std::span<const double> y, double coverage,
                                     double inflation = 1);

struct TrendTest {
  std::int64_t s = 0;
  double variance = no_figure;
  double z = no_figure;  // continuity corrected
  double p = no_figure;  // two-sided
  bool is_exact = false;
};

// Is there a trend, rising or falling, of whatever shape?
//
//   S = Σ_{i<j} sign(y_j - y_i)      var S = ( n(n - 1)(2n + 5) - Σ g(g - 1)(2g + 5) ) / 18
//   z = (S - sign S) / √(V·var S)
//
//   y        values in order of time      g  size of each group of equal values      V  by which var S is multiplied, 1
//            for independent values, (1 + φ)/(1 - φ) where neighbours resemble each other by φ
//   Source   Mann, Econometrica 13 (1945) 245; Kendall, Rank Correlation Methods; Gilbert (1987) 16.4; V: Hamed and
//            Rao, J. Hydrol. 204 (1998) 182 (from memory), for a chain of first order
//   Valid    independent values (or their V), those that differ by no more than rounding_noise tied; up to ten without
//            ties and with V 1 p is exact, from all orders. Fewer than five values can't reach 5 %: the smallest
//            two-sided p is 0.33, 0.083, 0.017 for 3, 4, 5.
//   Example  0.05 0.21 0.30 0.52 0.61 0.83  ->  S 15, var 28.333, z 2.630, exact p 0.00278
TrendTest mann_kendall(std::span<const double> y, double inflation = 1);

}  // namespace driftwarden

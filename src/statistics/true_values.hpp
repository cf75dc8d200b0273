// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace driftwarden {

// One of the normal distributions that true values are spread by; all have one weight.
struct TrueValuePart {
  double mean = 0;
  double s = 0;
};

// What true values are taken to be spread like, where figures of some of them are known.
struct TrueValues {
  std::size_t n = 0;     // figures behind it
  double centre = 0;     // their median
  double spread = 0;     // of the figures: their s, or what their quartiles tell, whichever is smaller
  double measuring = 0;  // what measuring adds to it, in the mean square
  double smoothing = 0;  // by which each figure is smoothed
  std::vector<TrueValuePart> parts;
};

// Too few figures tell nothing of how true values are spread.
inline constexpr std::size_t fewest_for_true_values = 20;

// True values from figures: of each figure what its true value may be, the other figures being as they are.
//
//   E_i = y_i + u² κ s(y_i)      V_i = u² (1 + u² κ s'(y_i))      κ = 1 + h²/r²      h = 0.9 r n^(-1/5)
//   part i ~ N( c + (E_i - c) √(1 - h²/r²), V_i + h² )
//
//   y_i, c   figures and their median      r  min(s, interquartile range / 1.349)      u  what measuring adds, of each
//   s        slope of the logarithm of the figures' density, which is estimated with normal kernels of width h
//   κ        undoes what these kernels take from the slope, of a normal distribution
//   Source   Tweedie's formula (Robbins 1956; Efron, J. Am. Stat. Assoc. 106 (2011) 1602) with a kernel estimate of the
//            sample's own variance (Silverman, Density Estimation, 1986, 3.31 and 6.4.1); from memory, and simulated by
//            tests/reference/load/risk_load
//   Valid    20 figures or more, else none; figures all alike are one point; V_i is kept between 0 and u². No
//            distribution is assumed: a figure that has no neighbours stays where it is
//   Example  without u, 100 figures of r 1: parts of width 0.358, drawn together by 0.934
TrueValues true_values_from(std::span<const double> figures, std::span<const double> u);

}  // namespace driftwarden

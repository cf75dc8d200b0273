// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>

#include "statistics/bounds.hpp"

namespace driftwarden {

inline constexpr std::size_t largest_chart_group = 25;

// Mean and standard deviation of the range, and mean of s, of n values in units of their σ, and the factors of control
// limits made of them.
//
//   d2 = E[R]/σ      d3 = sd[R]/σ      c4 = √(2/(n - 1)) · Γ(n/2) / Γ((n - 1)/2)
//   A2 = 3/(d2√n)    A3 = 3/(c4√n)     D3, D4 = 1 ∓ 3 d3/d2     B3, B4 = 1 ∓ 3 √(1 - c4²)/c4   (not below 0)
//
//   R        range of n independent normal values
//   Source   d2, d3: computed for this project by quadrature of the range's distribution, E[R] = ∫P(R > w)dw; the test
//            repeats it. Formulas: NIST/SEMATECH e-Handbook 6.3.2.1
//   Valid    2 ≤ n ≤ 25
//   Example  n 5  ->  d2 2.3259, c4 0.9400, A2 0.5768, D4 2.1145
struct ChartConstants {
  double d2 = no_figure;
  double d3 = no_figure;
  double c4 = no_figure;
  double a2 = no_figure;
  double a3 = no_figure;
  double b3 = no_figure;
  double b4 = no_figure;
  double big_d3 = no_figure;  // D3 and D4 of the range chart, not d3
  double big_d4 = no_figure;
};

// Empty outside 2 to largest_chart_group.
std::optional<ChartConstants> chart_constants(std::size_t n);

// c4 for any n ≥ 2.
double c4(std::size_t n);

}  // namespace driftwarden

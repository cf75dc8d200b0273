// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "statistics/bounds.hpp"

namespace driftwarden {

// Target, slack and decision interval, all in the unit of the values.
struct CusumDesign {
  double target = no_figure;
  double slack = no_figure;              // k
  double decision_interval = no_figure;  // h
};

// k and h in sigmas, as they are usually quoted: k 0.5, h 4 gives a false signal about every 168 values, h 5 every 465,
// and finds a shift of one sigma after 8.4 and 10.4.
CusumDesign cusum_design_in_sigmas(double target, double sigma, double k, double h);

struct CusumPoint {
  double high = no_figure;
  double low = no_figure;
  double sum = no_figure;  // Σ(x - target), for drawing
  bool is_high_signal = false;
  bool is_low_signal = false;
};

// Two one-sided cumulative sums.
//
//   C⁺_t = max(0, C⁺_{t-1} + x_t - T - k)      C⁻_t = max(0, C⁻_{t-1} + T - k - x_t)      signal: C > h
//
//   T, k, h  target, slack, decision interval, in the unit of x
//   Source   NIST/SEMATECH e-Handbook 6.3.2.3
//   Valid    independent values; a missing value (NaN) leaves the sums as they were and is no signal
//   Example  the handbook's 20 means, T 325, k 0.3175, h 4.1959  ->  first signal at the 14th, C⁺_20 19.035
std::vector<CusumPoint> cusum(std::span<const double> values, const CusumDesign& design);

}  // namespace driftwarden

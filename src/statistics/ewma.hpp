// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "statistics/bounds.hpp"

namespace driftwarden {

struct EwmaDesign {
  double target = no_figure;
  double sigma = no_figure;  // of one value
  double lambda = 0.2;       // weight of the newest value, above 0 and up to 1
  double width = 2.962;      // limits in sigmas of the average: with λ 0.2, a false signal about every 500 values
  bool has_widening_limits = true;  // limits of the first values are narrower; false: those of many values throughout
};

struct EwmaPoint {
  double average = no_figure;
  double lower = no_figure;
  double upper = no_figure;
  bool is_signal = false;  // strictly outside
};

// Exponentially weighted moving average and its limits.
//
//   z_t = λ x_t + (1 - λ) z_{t-1},  z_0 = T      T ± L σ √( λ/(2 - λ) · (1 - (1 - λ)^{2t}) )
//
//   T, σ     target and standard deviation of one value      L  width
//   Source   NIST/SEMATECH e-Handbook 6.3.2.4
//   Valid    independent values; a missing value (NaN) leaves the average and its limits as they were and is no signal
//   Example  the handbook's 20 values, λ 0.3, T 50, σ 2.0539, L 3  ->  z_20 51.988, limits 47.4116 and 52.5884
std::vector<EwmaPoint> ewma(std::span<const double> values, const EwmaDesign& design);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <limits>
#include <span>

namespace driftwarden {

struct MeanAndSpread {
  std::size_t n = 0;
  double mean = std::numeric_limits<double>::quiet_NaN();
  double s = std::numeric_limits<double>::quiet_NaN();  // sample standard deviation, n - 1; NaN below two values
  double smallest = std::numeric_limits<double>::quiet_NaN();
  double largest = std::numeric_limits<double>::quiet_NaN();

  double relative_s() const;  // s / |mean|; NaN at mean 0
  double range() const { return largest - smallest; }
};

bool are_finite(std::span<const double> values);
bool are_of_one_size(std::span<const MeanAndSpread> sets);  // as many values in each

// Mean and sample standard deviation.
//
//   x̄ = Σx / n        s = √( Σ(x - x̄)² / (n - 1) )
//
//   x        values, any unit; x̄ and s have the same
//   Source   NIST/SEMATECH e-Handbook 1.3.5.1 and 1.3.5.6
//   Valid    finite values, n ≥ 1 for the mean, n ≥ 2 for s; any value not finite makes all but n NaN
//   Example  2.013, 2.008, 2.011, 2.015, 2.009  ->  mean 2.0112, s 0.00286356
MeanAndSpread mean_and_spread(std::span<const double> values);

// Correlation of each value with the next.
//
//   r = Σ(x_i - x̄)(x_{i+1} - x̄) / Σ(x_i - x̄)²
//
//   x        values in order of time
//   Source   NIST Statistical Reference Datasets (no factor n/(n - 1))
//   Valid    n ≥ 2 values that are not all equal, NaN otherwise; |r| > 2/√n speaks against independence
//   Example  10000001, 10000003, 10000002  ->  -0.5
double lag_one_autocorrelation(std::span<const double> values);

}  // namespace driftwarden

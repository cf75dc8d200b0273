// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "statistics/bounds.hpp"

namespace driftwarden {

// Correlation of pairs of values.
//
//   r = Σ(x - x̄)(y - ȳ) / √( Σ(x - x̄)² · Σ(y - ȳ)² )
//
//   x, y     paired values
//   Source   JCGM 100:2008 (GUM) 5.2.2 and C.3.6
//   Valid    two or more pairs, spread in both; NaN otherwise
//   Example  voltage and current of GUM H.2, five pairs  ->  -0.355
double correlation(std::span<const double> x, std::span<const double> y);

// How two results hang together that share inputs.
struct SharedInputs {
  double u_first = no_figure;
  double u_second = no_figure;
  double covariance = no_figure;
  double correlation = no_figure;   // NaN if either has no uncertainty
  double u_difference = no_figure;  // of second - first
  double u_sum = no_figure;
};

// Two results of the same independent inputs, one amount (sensitivity times standard uncertainty, with its sign) per
// input; an input of only one result has the amount 0 for the other.
//
//   u(y1, y2) = Σ a_k b_k      r = u(y1, y2) / (u(y1) u(y2))      u²(y2 - y1) = Σ(b_k - a_k)²
//
//   a, b     amounts for the first and the second result, in their unit
//   Source   JCGM 100:2008 (GUM) F.1.2.3
//   Valid    independent inputs, sensitivities constant over their uncertainty; equal lengths
//   Example  before 2.0152 ± 0.0101 and after 1.9623 ± 0.0099 L/min with one calibrator  ->  r 0.9836,
//            u of the difference 0.00183 L/min (0.01415 if they were taken for independent)
SharedInputs shared_inputs(std::span<const double> first, std::span<const double> second);

// Symmetric, 1 on the diagonal.
class CorrelationMatrix {
 public:
  explicit CorrelationMatrix(std::size_t size);  // of independent inputs
  std::size_t size() const { return size_; }
  void set(std::size_t row, std::size_t column, double r);
  double at(std::size_t row, std::size_t column) const { return entries_[row * size_ + column]; }

 private:
  std::size_t size_;
  std::vector<double> entries_;
};

}  // namespace driftwarden

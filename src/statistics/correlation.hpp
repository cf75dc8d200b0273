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

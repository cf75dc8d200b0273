// SPDX-License-Identifier: MIT
#include "statistics/correlation.hpp"

#include <cassert>
#include <cmath>
#include <cstddef>

#include "statistics/mean_and_spread.hpp"

namespace driftwarden {

double correlation(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size());
  const MeanAndSpread of_x = mean_and_spread(x);
  const MeanAndSpread of_y = mean_and_spread(y);
  if (!(of_x.s > 0) || !(of_y.s > 0)) return no_figure;
  double products = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    products += (x[i] - of_x.mean) / of_x.s * ((y[i] - of_y.mean) / of_y.s);
  }
  return products / static_cast<double>(x.size() - 1);
}

CorrelationMatrix::CorrelationMatrix(std::size_t size) : size_(size), entries_(size * size, 0.0) {
  for (std::size_t i = 0; i < size; ++i) entries_[i * size + i] = 1;
}

void CorrelationMatrix::set(std::size_t row, std::size_t column, double r) {
  entries_[row * size_ + column] = r;
  entries_[column * size_ + row] = r;
}

}  // namespace driftwarden

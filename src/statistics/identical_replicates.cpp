// SPDX-License-Identifier: MIT
#include "statistics/identical_replicates.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/elementary.hpp"
#include "statistics/bounds.hpp"
#include "statistics/normal_distribution.hpp"

namespace driftwarden {

double probability_of_identical_readings(std::size_t n, double sigma_in_steps) {
  if (n == 0 || !(sigma_in_steps > 0) || std::isinf(sigma_in_steps)) return no_figure;
  if (n == 1) return 1;
  const double step = 1 / sigma_in_steps;  // in sigmas, as everything below
  constexpr double reach = 9;              // what lies beyond adds less than 1e-17
  constexpr double spacing = 0.05;  // sums of equally spaced points are exact far beyond need for so smooth a function
  const auto points = static_cast<std::size_t>(std::ceil((step + 2 * reach) / spacing));
  double sum = 0;
  for (std::size_t i = 0; i <= points; ++i) {
    const double x = -reach - step + static_cast<double>(i) * spacing;
    sum += elementary::pow(normal_cdf(x + step) - normal_cdf(x), static_cast<double>(n));
  }
  return std::min(1.0, sum * spacing / step);
}

}  // namespace driftwarden

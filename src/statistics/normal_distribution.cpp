// SPDX-License-Identifier: MIT
#include "statistics/normal_distribution.hpp"

#include <limits>
#include <numbers>

#include "quantity/elementary.hpp"
#include "statistics/bounds.hpp"
#include "statistics/special_functions.hpp"

namespace driftwarden {

double normal_cdf(double z) { return special::erfc(-z / std::numbers::sqrt2) / 2; }

double normal_quantile(double probability) {
  if (!(probability >= 0 && probability <= 1)) return no_figure;
  if (probability == 0) return -std::numeric_limits<double>::infinity();
  if (probability == 1) return std::numeric_limits<double>::infinity();
  return -std::numbers::sqrt2 * special::erfc_inverse(2 * probability);
}

}  // namespace driftwarden

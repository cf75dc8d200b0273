// SPDX-License-Identifier: MIT
#include "statistics/distribution_shape.hpp"

#include <cmath>

#include "statistics/bounds.hpp"

namespace driftwarden {

double standard_uncertainty(DistributionShape shape, double half_width) {
  switch (shape) {
    case DistributionShape::rectangular:
      return half_width / std::sqrt(3.0);
    case DistributionShape::triangular:
      return half_width / std::sqrt(6.0);
    case DistributionShape::arcsine:
      return half_width / std::sqrt(2.0);
  }
  return no_figure;
}

double standard_uncertainty_of_trapezoid(double half_width, double top_share) {
  return half_width * std::sqrt((1 + top_share * top_share) / 6);
}

double standard_uncertainty_of_resolution(double step) { return step / std::sqrt(12.0); }

}  // namespace driftwarden

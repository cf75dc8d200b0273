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

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/assessment/cut_size.hpp"

#include <cmath>

namespace driftwarden {

double cut_shift(double flow_l_min, double nominal_l_min, double exponent) {
  return std::pow(flow_l_min / nominal_l_min, -exponent) - 1;
}

}  // namespace driftwarden

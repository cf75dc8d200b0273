// SPDX-License-Identifier: MIT
#include "assessment/cut_size.hpp"

#include "quantity/elementary.hpp"
#include "record/sample.hpp"

namespace driftwarden {

double cut_shift(double flow_l_min, double nominal_l_min, double exponent) {
  if (is_missing(flow_l_min) || is_missing(exponent)) return missing;  // pow() would make 1 of some
  return elementary::pow(flow_l_min / nominal_l_min, -exponent) - 1;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "assessment/cut_size.hpp"

#include "quantity/elementary.hpp"
#include "record/sample.hpp"

namespace driftwarden {

double cut_shift(double flow_l_min, double nominal_l_min, double exponent) {
  const double ratio = flow_l_min / nominal_l_min;
  if (is_missing(ratio) || is_missing(exponent)) return missing;  // pow() would make 1 of some
  return elementary::pow(ratio, -exponent) - 1;
}

}  // namespace driftwarden

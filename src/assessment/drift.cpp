// SPDX-License-Identifier: MIT
#include "driftwarden/assessment/drift.hpp"

namespace driftwarden {

double base_flow(double pre_l_min, double post_l_min, DriftBase base, double nominal_l_min) {
  switch (base) {
    case DriftBase::pre:
      return pre_l_min;
    case DriftBase::post:
      return post_l_min;
    case DriftBase::mean:
      return (pre_l_min + post_l_min) / 2;
    case DriftBase::nominal:
      return nominal_l_min;
  }
  return pre_l_min;
}

double drift(double pre_l_min, double post_l_min, DriftBase base, double nominal_l_min) {
  return (post_l_min - pre_l_min) / base_flow(pre_l_min, post_l_min, base, nominal_l_min);
}

double deviation(double flow_l_min, double wanted_l_min) { return (flow_l_min - wanted_l_min) / wanted_l_min; }

}  // namespace driftwarden

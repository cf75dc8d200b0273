// SPDX-License-Identifier: MIT
#include "assessment/drift.hpp"

namespace driftwarden {

FlowWeights drift_weights(double pre_l_min, double post_l_min, DriftBase base, double nominal_l_min) {
  const double q1 = pre_l_min;
  const double q2 = post_l_min;
  const double sum = q1 + q2;
  switch (base) {
    case DriftBase::pre:
      return {-q2 / (q1 * q1), 1 / q1};
    case DriftBase::post:
      return {-1 / q2, q1 / (q2 * q2)};
    case DriftBase::mean:
      return {-4 * q2 / (sum * sum), 4 * q1 / (sum * sum)};
    case DriftBase::nominal:
      break;
  }
  return {-1 / nominal_l_min, 1 / nominal_l_min};
}

double drift(double pre_l_min, double post_l_min, DriftBase base, double nominal_l_min) {
  return drift(pre_l_min, post_l_min, base_flow(pre_l_min, post_l_min, base, nominal_l_min));
}

double deviation(double flow_l_min, double wanted_l_min) { return (flow_l_min - wanted_l_min) / wanted_l_min; }

}  // namespace driftwarden

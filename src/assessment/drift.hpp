// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/practice.hpp"

namespace driftwarden {

// The flow that a base stands for, L/min.
template <class Number>
Number base_flow(const Number& pre_l_min, const Number& post_l_min, DriftBase base, const Number& nominal_l_min) {
  switch (base) {
    case DriftBase::pre:
      return pre_l_min;
    case DriftBase::post:
      return post_l_min;
    case DriftBase::mean:
      return (pre_l_min + post_l_min) / 2.0;
    case DriftBase::nominal:
      break;
  }
  return nominal_l_min;
}

// Drift: how far the flow moved between the check before and the check after sampling.
//
//   d = (q_post − q_pre) / q_base
//
//   q_pre, q_post  means of the corrected sets, L/min     q_base  q_pre, q_post, their mean, or the nominal flow
//   d              ratio; 0.05 is 5 %
//   Source   domain practice; bases seen: initial flow (40 CFR 53.43(d)), period mean (40 CFR 50 App. L §7.4.5.2),
//            design flow (App. L §7.4.3.1)
//   Valid    any two flows above zero; NaN where one is missing
//   Example  2.000 -> 1.904 L/min: -4.800 % of pre, -5.042 % of post, -4.918 % of the mean
template <class Number>
Number drift(const Number& pre, const Number& post, const Number& base) {
  return (post - pre) / base;
}
double drift(double pre_l_min, double post_l_min, DriftBase base, double nominal_l_min);

// How a function of both flows follows each of them: its change per L/min.
struct FlowWeights {
  double pre = 0;
  double post = 0;
};

// How the drift follows each flow.
//
//   ∂d/∂q_pre, ∂d/∂q_post   of d = (q_post − q_pre) / q_base, per L/min
//
//   Source   derived from the formula of drift
//   Valid    flows above zero; a nominal base counts as exact
//   Example  2 and 1.9 L/min, base pre: −0.475 and 0.5 per L/min
FlowWeights drift_weights(double pre_l_min, double post_l_min, DriftBase base, double nominal_l_min);

// Relative deviation of a flow from a wanted one: (q − q_wanted) / q_wanted; NaN where one is missing.
double deviation(double flow_l_min, double wanted_l_min);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include "aerosol/cut_law.hpp"

namespace driftwarden {

// Change of a size-selective sampler's 50 % cut size when its flow is not the nominal one.
//
//   d50(Q) / d50(Q_nominal) − 1
//
//   Q, Q_nominal  actual volume flow, L/min     d50  by cut_at_flow(): a power alone, (Q / Q_nominal)^(−n) − 1, where
//                 only the exponent n is stated
//   Source   the law of the sampler's cut (aerosol/cut_law); exponents come with the sampler's own source
//   Valid    as cut_at_flow(); NaN where a figure is missing; a model, never a correction of a result
//   Example  1.9 for 2.0 L/min, n = 0.5: +2.60 %
double cut_shift(const CutLaw& law, double flow_l_min);

// The law of a sampler that is meant to run at another flow than that of its description: the same cut at every flow.
CutLaw with_nominal(const CutLaw& law, double nominal_l_min);

}  // namespace driftwarden

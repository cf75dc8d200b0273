// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// Change of a size-selective sampler's 50 % cut size when its flow is not the nominal one.
//
//   d50(Q) / d50(Q_nominal) − 1 = (Q / Q_nominal)^(−n) − 1
//
//   Q, Q_nominal  actual volume flow, L/min     n  exponent of the sampler: 0.5 for impactors (Stokes number theory)
//   Source   d50·√C ∝ Q^(−1/2) from Stk50 = const (aerosol texts); other exponents come with the sampler's own source
//   Valid    small changes of flow, NaN where one of the three is missing; the slip correction is left out; a model,
//            never a correction of a result
//   Example  1.9 for 2.0 L/min, n = 0.5: +2.60 %
double cut_shift(double flow_l_min, double nominal_l_min, double exponent);

}  // namespace driftwarden

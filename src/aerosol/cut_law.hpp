// SPDX-License-Identifier: MIT
#pragma once

#include "statistics/bounds.hpp"

namespace driftwarden {

// How a preselector's cut goes with the flow.
struct CutLaw {
  double nominal_um = no_figure;     // d50 at the nominal flow
  double nominal_l_min = no_figure;  // the nominal flow
  double exponent = no_figure;       // n: above 0 where the cut falls as the flow grows; below where it grows, too
  double mean_free_path_um = 0;      // of the air, where n is that of d50 and its slip; 0 where it is that of d50 alone
  Bounds flows_l_min;                // over which flows the law was found to hold; no end that isn't a figure
};

// Exponents of impactors and elutriators, which theory gives.
inline constexpr double impactor_exponent = 0.5;
inline constexpr double elutriator_exponent = -0.5;

// Between these lie most exponents of sampling cyclones: for where nobody knows that of the one in hand. From memory:
// 0.75 of the 10-mm nylon cyclone, 0.6 to 1.3 of others (tables of Chan and Lippmann 1977); about 1.1 of a family of
// one shape (Kenny and Gussman 1997). None of these was read. That a cut is a straight line over the flow in logarithms
// was, for larger cyclones (Moore and McFarland, Environ. Sci. Technol. 30 (1996) 271, abstract).
inline constexpr Bounds cyclone_exponents{0.5, 1.15};

// Whether the law was found to hold at a flow.
bool holds_at(const CutLaw& law, double flow_l_min);

// The cut of a preselector at a flow.
//
//   d · √C(d) = d₀ · √C(d₀) · (Q/Q₀)^(−n)
//
//   d, d₀  50 % cut at the flow and at the nominal one, µm      Q, Q₀  actual volume flow and the nominal one, L/min
//   n      exponent      C  slip correction; 1 without a mean free path
//   Source   impactor, n = 0.5: the Stokes number at 50 % stands still. Elutriator, n = −0.5: the settling velocity of
//            the cut goes as the flow, and as d²C. Cyclone: a power with the n of its own calibration
//   Valid    over the stated flows; NaN outside, or where a figure is missing or not above 0 (n may be). A model of the
//            preselector alone: nothing of leaks, charge, overloading, or the wind at its inlet
//   Example  4.0 µm at 2.0 L/min, n = 0.75: at 1.9 L/min 4.157 µm
double cut_at_flow(const CutLaw& law, double flow_l_min);

// How fast a cut goes with the flow where it stands.
//
//   −d ln d / d ln Q = n / (1 + s/2),   s = d ln C / d ln d
//
//   d  50 % cut, µm      Q  flow      n, C  exponent and slip correction of the law
//   Source   the derivative of the law above
//   Valid    as the law; n itself without a mean free path, even where no cut is stated
//   Example  impactor at 4 µm: 0.5102
double exponent_at(const CutLaw& law, double cut_um);

}  // namespace driftwarden

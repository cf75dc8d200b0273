// SPDX-License-Identifier: MIT
#pragma once

#include "aerosol/size_distribution.hpp"

namespace driftwarden {

// What of the particles of one size comes through a preselector.
struct PenetrationCurve {
  double cut_um = no_figure;  // d50: half of the particles of this aerodynamic diameter come through
  double spread = no_figure;  // geometric standard deviation; 1: all below the cut come through and none above
};

// Lognormal penetration.
//
//   P(d) = 1 − Φ( ln(d/d50) / ln σ )
//
//   d  aerodynamic diameter, µm      d50, σ  cut and spread
//   Source   the customary description of preselectors, of which the conventions are made, too (Soderholm 1989)
//   Valid    d, d50 ≥ 0 and not both 0, σ > 1; NaN otherwise. A model: real curves have tails of their own
//   Example  d50 4 µm, σ 1.25: at 5 µm 0.159
double penetration(const PenetrationCurve& curve, double d_um);

// The share of an aerosol's mass that comes through.
//
//   F = Φ( ln(d50/M) / √(ln²σ + ln²G) )
//
//   d50, σ  cut, µm, and spread      M, G  mass median aerodynamic diameter, µm, and geometric standard deviation
//   Source   the chance that one normal variable is below another, ln d of the aerosol and ln d of the curve
//   Valid    d50 ≥ 0, M > 0; σ, G ≥ 1 and not both 1; NaN otherwise. σ = 1 is the share of the mass below d50
//   Example  4 µm, 1.25 of 5 µm, 2: 0.37963
double sampled_share(const PenetrationCurve& curve, const LognormalAerosol& of);

// The same, by the cut: what else stands in the formula is worked out once for any number of cuts.
class ShareByCut {
 public:
  ShareByCut(double spread, const LognormalAerosol& of);
  // Of the cut's natural logarithm.
  double at(double log_cut_um) const;

 private:
  double log_mmad_ = no_figure;
  double width_ = no_figure;
};

}  // namespace driftwarden

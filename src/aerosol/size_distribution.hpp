// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "statistics/bounds.hpp"

namespace driftwarden {

// An aerosol whose mass is lognormally distributed over the aerodynamic diameter.
struct LognormalAerosol {
  double mmad_um = no_figure;  // mass median aerodynamic diameter: half of the mass is of smaller particles
  double gsd = no_figure;      // geometric standard deviation; 1: all particles are of one size
};

inline bool is_aerosol(const LognormalAerosol& of) { return of.mmad_um > 0 && of.gsd >= 1; }

// A size that stands for its neighbourhood, and the share of the mass that it stands for.
struct SizeShare {
  double d_um = no_figure;
  double share = no_figure;
};

// An aerosol as sizes that stand for all of it: means over its mass are sums over them.
//
//   ∫ φ(z) f(M G^z) dz  ≈  Σ h φ(i h) · f(M G^(i h)),      h = 1/8, |i h| ≤ 8.5
//
//   φ     standard normal density      f  any share of the particles of one diameter: a convention, a penetration curve
//   M, G  mass median aerodynamic diameter, µm, and geometric standard deviation
//   Source   the trapezoidal rule, whose error falls as e^(−c/h) for an analytic f that dies away at both ends
//            (Trefethen and Weideman, SIAM Review 56 (2014) 385, from memory)
//   Valid    to 1e-13 where G ≤ 10 and f is no steeper than a convention, of spread 1.5; for a curve of spread σ where
//            ln G ≤ 5.6 ln σ. Not for an f with steps. Nothing where M is not above 0 or G is below 1
//   Example  of 5 µm, 2, the sum of a lognormal penetration curve of 4 µm, 1.25: 0.37963
std::vector<SizeShare> size_shares(const LognormalAerosol& of);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/concentration.hpp"

namespace driftwarden {

// How much air holds a mass: the least volume for a mass that has to be found, the most for one that a filter may hold.
//
//   V = 1000 · m / c          t = V / Q
//
//   V   volume of air, L     m  mass, mg     c  concentration, mg/m3     t  minutes     Q  flow, L/min
//   Source   the concentration as it is defined, mass over volume, solved for the volume; 1 m3 = 1000 L
//   Valid    m > 0 and c > 0; all of the mass on the medium, and c the mean over the sample
//   Example  0.1 mg at 5 mg/m3  ->  20 L: the least volume of NMAM 0600, Issue 3, page 1, from its range
constexpr double volume_holding(double mass_mg, double concentration_mg_m3) {
  return 1000 * mass_mg / concentration_mg_m3;
}

// The lowest concentration that a volume can show, for the mass that has to be found; the highest that it may have
// been, for the mass that a filter may hold: mg/m3, by the formula of assessment/concentration.
//
//   Example  0.1 mg in 200 L  ->  0.5 mg/m3: the low end of the working range of NMAM 0600, Issue 3, page 1
constexpr double concentration_held(double mass_mg, double volume_l) { return concentration(mass_mg, volume_l, false); }

// The mass that a volume holds: m = c · V / 1000, in mg; symbols, source and validity as of volume_holding.
//
//   Example  0.5 mg/m3 in 200 L  ->  0.1 mg
constexpr double mass_held(double concentration_mg_m3, double volume_l) {
  return concentration_mg_m3 * volume_l / 1000;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

#include "quantity/quantity.hpp"

namespace driftwarden {

// What turns the indication of a variable-area meter into the actual flow.
//
//   Q_act = Q_ind · f,   f = √( (P_scale / P) · (T / T_scale) )
//
//   Q   volume flow, L/min      P  absolute pressure inside the tube, kPa      T  kelvin
//   scale: the conditions the scale was drawn for (or the meter was calibrated at)
//   Source   the drag on the float balances its weight, so ρQ² stands still at a given height, and ρ goes as P/T;
//            NMAM 4th ed. Ch. D §7a(7); 29 CFR 1926.1101 App. B, closing section
//   Valid    same gas; float far denser than the gas; float insensitive to viscosity (not the smallest tubes)
//   Example  scale drawn for 20 °C, 101.325 kPa, showing 2.00 L/min at 5 °C, 84.5 kPa  ->  2.1333 L/min actual. The
//   same
//            air stated at the conditions of the scale is Q_ind / f, 1.8750 L/min: often mistaken for the actual flow
template <class Number>
Number rotameter_factor(const ConditionsIn<Number>& scale, const ConditionsIn<Number>& use) {
  using std::sqrt;
  return sqrt((scale.kpa / use.kpa) * (use.kelvin / scale.kelvin));
}
double rotameter_factor(Conditions scale, Conditions use);

// Whether temperature (kelvin) or pressure (kPa) of b lies more than a ratio away from a's; exactly the ratio is not
// more.
//
//   |T_b − T_a| / T_a > r   or   |P_b − P_a| / P_a > r
//
//   T  kelvin      P  absolute pressure, kPa      r  ratio (0.05 is 5 %)
//   Source   29 CFR 1926.1101 App. B, closing section: correct where temperature or pressure differ by more than 5 %
//   Valid    conditions above zero. That the 5 % is of the absolute temperature, and of a's figures, is our reading
//   Example  20 °C, 101.325 kPa and 5 °C, 84.5 kPa: −5.1 % and −16.6 %, so more than 5 %
bool differs_by_more_than(Conditions a, Conditions b, double ratio);

}  // namespace driftwarden

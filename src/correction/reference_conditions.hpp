// SPDX-License-Identifier: MIT
#pragma once

#include "quantity/quantity.hpp"

namespace driftwarden {

// A flow or a volume of air at reference conditions.
//
//   Q_ref = Q_act · (P / P_ref) · (T_ref / T)     V_ref = V_act · (P / P_ref) · (T_ref / T)
//
//   Q   volume flow, L/min      V   volume, L      P  absolute station pressure, kPa      T  kelvin
//   Source   ideal gas, constant amount; same form as 40 CFR 50 App. J §11.1 for a flow, and as App. B §9.2.14 for a
//            volume (there P is the barometric pressure less the drop at the meter's inlet)
//   Valid    dry or near-dry air near ambient pressure; no humidity term; T, P and T_ref, P_ref above zero; T and P
//            those of the place where the air was drawn. With `at` and `reference` changed about, the way back
//   Example  2.000 L/min at 84.5 kPa, 10.0 °C  ->  1.7563 L/min at 101.325 kPa, 25 °C;
//            3000 L at 730 mmHg, 296 K  ->  2901.0 L at 760 mmHg, 298 K
template <class Number>
Number at_reference(const Number& actual, const ConditionsIn<Number>& at, const ConditionsIn<Number>& reference) {
  return actual * ((at.kpa / reference.kpa) * (reference.kelvin / at.kelvin));
}
double at_reference(double actual, Conditions at, Conditions reference);

}  // namespace driftwarden

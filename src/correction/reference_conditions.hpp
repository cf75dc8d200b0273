// SPDX-License-Identifier: MIT
#pragma once

#include "quantity/quantity.hpp"

namespace driftwarden {

// Flow at reference conditions.
//
//   Q_ref = Q_act · (P / P_ref) · (T_ref / T)
//
//   Q   volume flow, L/min      P  absolute station pressure, kPa      T  kelvin
//   Source   ideal gas, constant amount; same form as 40 CFR 50 App. J §11.1
//   Valid    dry or near-dry air near ambient pressure; no humidity term; T, P and T_ref, P_ref above zero
//   Example  2.000 L/min at 84.5 kPa, 10.0 °C  ->  1.7563 L/min at 101.325 kPa, 25 °C
ReferenceFlow flow_at_reference(ActualFlow actual, Conditions at, Conditions reference);

// Actual flow of a flow stated at reference conditions: the way back.
//
//   Q_act = Q_ref · (P_ref / P) · (T / T_ref)
//
//   Symbols, source and validity as above
//   Example  1.7563 L/min at 101.325 kPa, 25 °C  ->  2.000 L/min at 84.5 kPa, 10.0 °C
ActualFlow flow_at_conditions(ReferenceFlow flow, Conditions reference, Conditions at);

// Volume at reference conditions.
//
//   V_ref = V_act · (P / P_ref) · (T_ref / T)
//
//   V   volume, L      P  absolute station pressure, kPa      T  kelvin
//   Source   40 CFR 50 App. B §9.2.14 (there P is the barometric pressure less the drop at the meter's inlet)
//   Valid    as for the flow; T and P those of the place where the volume was drawn
//   Example  3000 L at 730 mmHg, 296 K  ->  2901.0 L at 760 mmHg, 298 K
template <class Number>
Number at_reference(const Number& actual, const ConditionsIn<Number>& at, const ConditionsIn<Number>& reference) {
  return actual * ((at.kpa / reference.kpa) * (reference.kelvin / at.kelvin));
}
ReferenceVolume volume_at_reference(ActualVolume actual, Conditions at, Conditions reference);

}  // namespace driftwarden

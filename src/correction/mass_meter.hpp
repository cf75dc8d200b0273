// SPDX-License-Identifier: MIT
#pragma once

#include "quantity/quantity.hpp"

namespace driftwarden {

// What turns the display of a thermal mass meter into the actual flow.
//
//   Q_act = Q_ind · f,   f = (P_std / P) · (T / T_std)
//
//   Q   volume flow, L/min      P  absolute pressure at the meter, kPa      T  kelvin
//   std: the meter's own standard conditions, those its display is stated at
//   Source   ideal gas: the display is the mass flow divided by the density at the meter's standard conditions
//   Valid    the gas the meter was calibrated with; the effect of moisture on the heat capacity is left out
//   Example  2.000 L/min shown at 25 °C, 101.325 kPa, air at 30 °C, 95.0 kPa  ->  2.1689 L/min actual
template <class Number>
Number mass_factor(const ConditionsIn<Number>& standard, const ConditionsIn<Number>& use) {
  return (standard.kpa / use.kpa) * (use.kelvin / standard.kelvin);
}
double mass_factor(Conditions standard, Conditions use);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

#include "quantity/quantity.hpp"

namespace driftwarden {

// What turns the calibrated flow of a critical orifice into the actual flow at another temperature.
//
//   Q_act = Q_scale · f,   f = √( T / T_scale )
//
//   Q   volume flow at the conditions before the orifice, L/min      T  temperature before the orifice, kelvin
//   scale: the temperature the orifice was calibrated at
//   Source   choked flow: mass flow goes as P/√T before the orifice, hence volume flow as √T, whatever the pressure;
//            same form as 40 CFR 1065.642(c)(2)
//   Valid    while the orifice is choked (orifice_is_choked), same gas
//   Example  2.00 L/min at 20 °C  ->  2.0505 L/min at 35 °C
template <class Number>
Number orifice_factor(const Number& scale_kelvin, const Number& use_kelvin) {
  using std::sqrt;
  return sqrt(use_kelvin / scale_kelvin);
}
double orifice_factor(Temperature scale, Temperature use);

// The ratio of the pressures behind and before an orifice below which it is choked.
//
//   r = (2 / (γ + 1)) ^ (γ / (γ − 1))
//
//   r   ratio of absolute pressures      γ  ratio of the heat capacities, 1.4 for air
//   Source   isentropic flow of an ideal gas (textbook result)
//   Valid    ideal nozzle; a real orifice may need a lower ratio
//   Example  γ = 1.4  ->  0.5283
double critical_pressure_ratio(double heat_capacity_ratio = 1.4);

// Whether air is choked between two absolute pressures: 17 inHg of vacuum at 29.92 inHg is a ratio of 0.432, choked.
bool orifice_is_choked(Pressure before, Pressure behind);

}  // namespace driftwarden

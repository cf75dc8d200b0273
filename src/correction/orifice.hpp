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
//   Valid    while the orifice is choked: of air, as long as the pressure behind it is less than 0.528 of that before
//            it, (2/(γ + 1))^(γ/(γ − 1)) with γ = 1.4 (isentropic flow, textbook); a real one may need less. Same gas
//   Example  2.00 L/min at 20 °C  ->  2.0505 L/min at 35 °C
template <class Number>
Number orifice_factor(const Number& scale_kelvin, const Number& use_kelvin) {
  using std::sqrt;
  return sqrt(use_kelvin / scale_kelvin);
}
double orifice_factor(Temperature scale, Temperature use);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include "quantity/quantity.hpp"

namespace driftwarden {

// Pressure of the standard atmosphere. Only where no pressure was read, and never without saying so: the weather alone
// moves the true pressure by a few percent.
//
//   P = P_0 · (1 − L·h / T_0) ^ 5.255876
//
//   P   absolute pressure, kPa      h  geopotential altitude, m
//   P_0 = 101.325 kPa      T_0 = 288.15 K      L = 0.0065 K/m
//   Source   US Standard Atmosphere 1976, lowest layer (constants read second hand)
//   Valid    −5 000 m (from memory) to 11 000 m; outside: NaN
//   Example  1 500 m  ->  84.556 kPa
Pressure pressure_at_altitude(double metres);

}  // namespace driftwarden

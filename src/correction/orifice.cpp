// SPDX-License-Identifier: MIT
#include "correction/orifice.hpp"

#include <cmath>

#include "quantity/elementary.hpp"

namespace driftwarden {

double orifice_factor(Temperature scale, Temperature use) { return orifice_factor(scale.kelvin, use.kelvin); }

double critical_pressure_ratio(double heat_capacity_ratio) {
  const double exponent = heat_capacity_ratio / (heat_capacity_ratio - 1);
  return elementary::pow(2 / (heat_capacity_ratio + 1), exponent);
}

bool orifice_is_choked(Pressure before, Pressure behind) { return behind / before < critical_pressure_ratio(); }

}  // namespace driftwarden

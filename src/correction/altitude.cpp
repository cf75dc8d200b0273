// SPDX-License-Identifier: MIT
#include "correction/altitude.hpp"

#include "quantity/elementary.hpp"
#include "record/sample.hpp"

namespace driftwarden {

Pressure pressure_at_altitude(double metres) {
  constexpr double lowest_m = -5000;
  constexpr double highest_m = 11000;
  if (!(metres >= lowest_m && metres <= highest_m)) return Pressure(missing);
  return Pressure(101.325 * elementary::pow(1 - 0.0065 * metres / 288.15, 5.255876));
}

}  // namespace driftwarden

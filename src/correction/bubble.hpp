// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "quantity/quantity.hpp"

namespace driftwarden {

// What the reading of a soap-film meter is taken for.
enum class BubbleHumidity : std::uint8_t {
  none,     // for the flow, as it stands
  ambient,  // for the flow of the air of the room, before the film moistened it
  dry,      // for the flow of the dry part of the air
};

// What turns the reading of a soap-film meter into a flow at the temperature and pressure of the reading.
//
//   Q = Q_ind · f,   none: f = 1    ambient: f = (P − p_w) / (P − φ·p_w)    dry: f = (P − p_w) / P
//
//   Q   volume flow, L/min      P  absolute pressure in the tube, kPa
//   p_w  saturation vapour pressure at the temperature of the reading, kPa      φ  relative humidity of the room, ratio
//   Source   Dalton's law: air leaves the tube saturated, only the dry part keeps its amount. NMAM 4th ed. Ch. D takes
//            the reading as it stands (none)
//   Valid    air saturated in the tube, P above p_w (else NaN); ambient and dry hold for the air, not for what a pump
//            that draws through the tube takes in
//   Example  2.000 L/min at 23.0 °C, 100.0 kPa, φ = 0.5  ->  ambient 1.9715 L/min, dry 1.9438 L/min
template <class Number>
Number ambient_factor(const Number& kpa, const Number& vapour_kpa, const Number& humidity) {
  return (kpa - vapour_kpa) / (kpa - humidity * vapour_kpa);
}
template <class Number>
Number dry_factor(const Number& kpa, const Number& vapour_kpa) {
  return (kpa - vapour_kpa) / kpa;
}
double bubble_factor(BubbleHumidity kind, Conditions use, RelativeHumidity ambient);

}  // namespace driftwarden

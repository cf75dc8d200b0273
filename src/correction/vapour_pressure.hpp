// SPDX-License-Identifier: MIT
#pragma once

#include "quantity/quantity.hpp"

namespace driftwarden {

// Saturation vapour pressure over liquid water, by the equation of Wagner and Pruß.
//
//   ln(p / p_c) = (T_c / T) · (a1·u + a2·u^1.5 + a3·u³ + a4·u^3.5 + a5·u⁴ + a6·u^7.5),   u = 1 − T / T_c
//
//   p   vapour pressure, kPa      T  kelvin      T_c = 647.096 K      p_c = 22 064 kPa
//   a1 to a6   −7.85951783, 1.84408259, −11.7866497, 22.6807411, −15.9618719, 1.80122502
//   Source   Wagner and Pruß, J. Phys. Chem. Ref. Data 31 (2002) 387; coefficients second hand, several copies agree
//   Valid    triple point to critical point; below 0.01 °C it extends to undercooled water, not ice; above T_c: NaN
//   Example  20 °C  ->  2.33919 kPa
Pressure saturation_vapour_pressure(Temperature temperature);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include "quantity/quantity.hpp"

namespace driftwarden {

// Saturation vapour pressure over liquid water, by the equation of Wagner and Pruß. The one used for corrections.
//
//   ln(p / p_c) = (T_c / T) · (a1·u + a2·u^1.5 + a3·u³ + a4·u^3.5 + a5·u⁴ + a6·u^7.5),   u = 1 − T / T_c
//
//   p   vapour pressure, kPa      T  kelvin      T_c = 647.096 K      p_c = 22 064 kPa
//   a1 to a6   −7.85951783, 1.84408259, −11.7866497, 22.6807411, −15.9618719, 1.80122502
//   Source   Wagner and Pruß, J. Phys. Chem. Ref. Data 31 (2002) 387; coefficients second hand, several copies agree
//   Valid    triple point to critical point; below 0.01 °C it extends to undercooled water, not ice; above T_c: NaN
//   Example  20 °C  ->  2.33919 kPa
Pressure saturation_vapour_pressure(Temperature temperature);

// Saturation vapour pressure over liquid water, by the equation of Goff. To check against documents that use it.
//
//   log10(p / kPa) = 10.79574·(1 − 273.16/T) − 5.02800·log10(T/273.16) + 1.50475e-4·(1 − 10^(−8.2969·(T/273.16 − 1)))
//                    + 0.42873e-3·(10^(4.76955·(1 − 273.16/T)) − 1) − 0.2138602
//
//   p   vapour pressure, kPa      T  kelvin
//   Source   40 CFR 1065.645; coefficients from memory, they reproduce every digit of its two worked examples
//   Valid    0 to 100 °C (from memory)
//   Example  9.5 °C  ->  1.186581 kPa
Pressure saturation_vapour_pressure_goff(Temperature temperature);

// Amount of water vapour in an amount of moist gas.
//
//   x = φ · p_w / P
//
//   x   mole fraction, mol/mol      φ  relative humidity, ratio (1 at the dew point)
//   p_w  saturation vapour pressure, kPa      P  absolute pressure, kPa
//   Source   Dalton's law; 40 CFR 1065.645(b) from the dew point, (c) from the relative humidity
//   Valid    ideal mixture near ambient pressure
//   Example  φ = 50.77 %, p_w = 2.3371 kPa, P = 99.980 kPa  ->  0.011868 mol/mol
double mole_fraction_of_water(RelativeHumidity humidity, Pressure saturation, Pressure absolute);

}  // namespace driftwarden

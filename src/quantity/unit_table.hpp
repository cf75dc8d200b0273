// SPDX-License-Identifier: MIT
// The units the program knows, what each is exactly, and how it may be spelled. The factors are definitions; where an
// issue, page or resolution number stands beside one, that number is cited from memory.
#pragma once

#include <string_view>

#include "quantity/units.hpp"

namespace driftwarden::unit_table {

using enum Dimension;

// The international foot is 0.3048 m exactly (United States and Commonwealth agreement of 1959, 24 FR 5348), so a cubic
// foot is 0.3048³ m³ = 28.316846592 L exactly.
inline constexpr double metres_per_foot = 0.3048;
inline constexpr double litres_per_cubic_foot = 28.316846592;

// Flow, inside in L/min.
inline constexpr Unit litre_per_minute{"L/min", flow};
inline constexpr Unit millilitre_per_minute{"mL/min", flow, 1, 1000};
// 1 cm³ = 1 mL since the litre is the cubic decimetre again (12th CGPM 1964, resolution 6).
inline constexpr Unit cubic_centimetre_per_minute{"cm3/min", flow, 1, 1000};
inline constexpr Unit cubic_metre_per_hour{"m3/h", flow, 1000, 60};
inline constexpr Unit cubic_metre_per_minute{"m3/min", flow, 1000};
inline constexpr Unit cubic_foot_per_minute{"ft3/min", flow, litres_per_cubic_foot};

// Temperature, inside in K. 0 °C = 273.15 K (10th CGPM 1954, 13th CGPM 1967); t/°C = (t/°F - 32) · 5/9.
inline constexpr Unit degree_celsius{"°C", temperature, 1, 1, 273.15};
inline constexpr Unit degree_fahrenheit{"°F", temperature, 5, 9, 273.15, 32};
inline constexpr Unit kelvin{"K", temperature};

inline constexpr Unit kelvin_apart{"K", temperature_difference};
inline constexpr Unit degrees_celsius_apart{"°C", temperature_difference};
inline constexpr Unit degrees_fahrenheit_apart{"°F", temperature_difference, 5, 9};

// Pressure, inside in kPa.
inline constexpr Unit kilopascal{"kPa", pressure};
inline constexpr Unit hectopascal{"hPa", pressure, 1, 10};
inline constexpr Unit pascal{"Pa", pressure, 1, 1000};
inline constexpr Unit millibar{"mbar", pressure, 1, 10};  // 1 bar = 100 kPa (SI brochure, 8th edition, table 8)
inline constexpr Unit bar{"bar", pressure, 100};
inline constexpr Unit atmosphere{"atm", pressure, 101.325};  // 10th CGPM 1954, resolution 4
// 760 mmHg = 101.325 kPa, as 40 CFR 50 counts reference pressure; the torr by definition. The conventional millimetre
// of mercury (133.322387415 Pa) differs by 1.4e-7 of it.
inline constexpr Unit millimetre_of_mercury{"mmHg", pressure, 101.325, 760};
inline constexpr Unit torr{"Torr", pressure, 101.325, 760};
// Conventional inch of mercury at 0 °C: 25.4 · 133.322387415 Pa (mercury of 13595.1 kg/m³ at 9.80665 m/s²; NIST SP 811,
// appendix B.8, "inch of mercury, conventional").
inline constexpr Unit inch_of_mercury{"inHg", pressure, 3.386388640341};
// Pound-force per square inch: 0.45359237 kg · 9.80665 m/s² / (0.0254 m)² = 4.4482216152605 N / 6.4516 cm²
// = 6.894757293168361… kPa (pound and inch of 1959, as above).
inline constexpr Unit pound_per_square_inch{"psi", pressure, 4.4482216152605, 0.64516};

// Time, inside in min.
inline constexpr Unit second{"s", Dimension::time, 1, 60};
inline constexpr Unit minute{"min", Dimension::time};
inline constexpr Unit hour{"h", Dimension::time, 60};
inline constexpr Unit day{"d", Dimension::time, 1440};

// Length, inside in m.
inline constexpr Unit metre{"m", length};
inline constexpr Unit foot{"ft", length, metres_per_foot};
inline constexpr Unit kilometre{"km", length, 1000};

inline constexpr Unit plain_ratio{"", Dimension::ratio};
inline constexpr Unit percent{"%", Dimension::ratio, 1, 100};

// Volume, inside in L.
inline constexpr Unit litre{"L", volume};
inline constexpr Unit millilitre{"mL", volume, 1, 1000};
inline constexpr Unit cubic_metre{"m3", volume, 1000};
inline constexpr Unit cubic_foot{"ft3", volume, litres_per_cubic_foot};

inline constexpr Unit plain_count{"", count};

// Of particles, inside in µm.
inline constexpr Unit micrometre{"µm", diameter};

// Found on a medium, inside in mg; fibres are counted, and stand for nothing else.
inline constexpr Unit kilogram{"kg", mass, 1e6};
inline constexpr Unit gram{"g", mass, 1000};
inline constexpr Unit milligram{"mg", mass};
inline constexpr Unit microgram{"µg", mass, 1, 1000};
inline constexpr Unit nanogram{"ng", mass, 1, 1e6};
inline constexpr Unit fibre{"fibres", fibres};

// In the air, inside in mg/m3.
inline constexpr Unit gram_per_cubic_metre{"g/m3", concentration, 1000};
inline constexpr Unit milligram_per_cubic_metre{"mg/m3", concentration};
inline constexpr Unit microgram_per_cubic_metre{"µg/m3", concentration, 1, 1000};
inline constexpr Unit nanogram_per_cubic_metre{"ng/m3", concentration, 1, 1e6};

struct Spelling {
  std::string_view folded;  // in lower case, without blanks, "°" as "deg", "³" as "3", "µ" as "u"
  Unit unit;
};

inline constexpr Spelling spellings[] = {
    {"l/min", litre_per_minute},
    {"lpm", litre_per_minute},
    {"l/minute", litre_per_minute},
    {"ml/min", millilitre_per_minute},
    {"mlpm", millilitre_per_minute},
    {"cm3/min", cubic_centimetre_per_minute},
    {"cc/min", cubic_centimetre_per_minute},
    {"ccm", cubic_centimetre_per_minute},
    {"m3/h", cubic_metre_per_hour},
    {"m3/hr", cubic_metre_per_hour},
    {"m3/min", cubic_metre_per_minute},
    {"ft3/min", cubic_foot_per_minute},
    {"cfm", cubic_foot_per_minute},
    {"degc", degree_celsius},
    {"c", degree_celsius},
    {"celsius", degree_celsius},
    {"degf", degree_fahrenheit},
    {"f", degree_fahrenheit},
    {"fahrenheit", degree_fahrenheit},
    {"k", kelvin},
    {"kelvin", kelvin},
    {"k", kelvin_apart},
    {"kelvin", kelvin_apart},
    {"degc", degrees_celsius_apart},
    {"c", degrees_celsius_apart},
    {"degf", degrees_fahrenheit_apart},
    {"f", degrees_fahrenheit_apart},
    {"kpa", kilopascal},
    {"hpa", hectopascal},
    {"pa", pascal},
    {"mbar", millibar},
    {"mb", millibar},
    {"bar", bar},
    {"atm", atmosphere},
    {"mmhg", millimetre_of_mercury},
    {"torr", torr},
    {"inhg", inch_of_mercury},
    {"in.hg", inch_of_mercury},
    {"psi", pound_per_square_inch},
    {"psia", pound_per_square_inch},
    {"s", second},
    {"sec", second},
    {"second", second},
    {"seconds", second},
    {"min", minute},
    {"minute", minute},
    {"minutes", minute},
    {"h", hour},
    {"hr", hour},
    {"hour", hour},
    {"hours", hour},
    {"d", day},
    {"day", day},
    {"days", day},
    {"m", metre},
    {"metre", metre},
    {"metres", metre},
    {"meter", metre},
    {"meters", metre},
    {"ft", foot},
    {"foot", foot},
    {"feet", foot},
    {"km", kilometre},
    {"", plain_ratio},
    {"1", plain_ratio},
    {"%", percent},
    {"percent", percent},
    {"l", litre},
    {"litre", litre},
    {"litres", litre},
    {"liter", litre},
    {"liters", litre},
    {"ml", millilitre},
    {"cm3", millilitre},
    {"cc", millilitre},
    {"m3", cubic_metre},
    {"ft3", cubic_foot},
    {"", plain_count},
    {"1", plain_count},
    {"um", micrometre},
    {"micrometre", micrometre},
    {"micrometres", micrometre},
    {"micrometer", micrometre},
    {"micrometers", micrometre},
    {"kg", kilogram},
    {"g", gram},
    {"gram", gram},
    {"grams", gram},
    {"mg", milligram},
    {"milligram", milligram},
    {"milligrams", milligram},
    {"ug", microgram},
    {"mcg", microgram},
    {"microgram", microgram},
    {"micrograms", microgram},
    {"ng", nanogram},
    {"fibres", fibre},
    {"fibre", fibre},
    {"fibers", fibre},
    {"fiber", fibre},
    {"g/m3", gram_per_cubic_metre},
    {"mg/m3", milligram_per_cubic_metre},
    {"ug/m3", microgram_per_cubic_metre},
    {"ng/m3", nanogram_per_cubic_metre},
};

inline constexpr std::string_view flow_names[] = {"L/min", "mL/min", "cm3/min", "m3/h", "m3/min", "ft3/min"};
inline constexpr std::string_view temperature_names[] = {"°C", "°F", "K"};
inline constexpr std::string_view difference_names[] = {"K", "°C", "°F"};
inline constexpr std::string_view pressure_names[] = {"kPa",  "hPa",  "Pa",   "mbar", "bar",
                                                      "mmHg", "Torr", "inHg", "psi",  "atm"};
inline constexpr std::string_view time_names[] = {"s", "min", "h", "d"};
inline constexpr std::string_view length_names[] = {"m", "ft", "km"};
inline constexpr std::string_view ratio_names[] = {"%", "1"};
inline constexpr std::string_view volume_names[] = {"L", "mL", "m3", "ft3"};
inline constexpr std::string_view count_names[] = {"1"};
inline constexpr std::string_view diameter_names[] = {"µm"};
inline constexpr std::string_view mass_names[] = {"kg", "g", "mg", "µg", "ng"};
inline constexpr std::string_view fibre_names[] = {"fibres"};
inline constexpr std::string_view concentration_names[] = {"g/m3", "mg/m3", "µg/m3", "ng/m3"};

}  // namespace driftwarden::unit_table

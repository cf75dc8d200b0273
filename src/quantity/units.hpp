// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "quantity/number.hpp"

namespace driftwarden {

// What a unit measures. `ratio` is a plain number or a percentage (inside: 0.05 for "5 %"); `count` a plain number;
// `diameter` is that of a particle, `mass` what was found on a medium, and so is `fibres`; `concentration` a mass in a
// volume of air.
enum class Dimension {
  flow,
  temperature,
  temperature_difference,
  pressure,
  time,
  length,
  ratio,
  volume,
  count,
  diameter,
  mass,
  fibres,
  concentration
};

std::string_view to_text(Dimension dimension);

// A unit: inside = (written - origin) · numerator / denominator + offset. Division and multiplication are kept apart so
// that 1900 mL/min is exactly 1.9 L/min, and origin and offset so that 77 °F is exactly 25 °C.
// Inside units: L/min, K, kPa, min, m, ratio (1), L, µm, mg, fibres, mg/m3.
struct Unit {
  std::string_view name;  // as printed
  Dimension dimension = Dimension::count;
  double numerator = 1;
  double denominator = 1;
  double offset = 0;
  double origin = 0;

  constexpr double to_inside(double written) const {
    const double scaled = (written - origin) * numerator;
    return (denominator == 1 ? scaled : scaled / denominator) + offset;  // most units need no division, which is slow
  }
  constexpr double from_inside(double inside) const { return (inside - offset) * denominator / numerator + origin; }
};

// Reads "L/min", "mL/min", "cc/min", "°F", "deg F", "inHg", "%" and the like, case and blanks set aside where no unit
// of another meaning would result. Empty: unknown.
std::optional<Unit> unit_named(std::string_view name, Dimension dimension);

// The unit names known for a dimension, as printed, for messages.
std::span<const std::string_view> unit_names(Dimension dimension);

// The inside unit as printed ("L/min", "K", …) and the one people write ("L/min", "°C", "kPa", "min", "%").
Unit inside_unit(Dimension dimension);
Unit customary_unit(Dimension dimension);

struct Amount {
  double value = 0;  // in the inside unit
  Dimension dimension = Dimension::count;
  Unit written_unit;
  double written = 0;  // as written
};

// "25 °C", "101.325 kPa", "5 %", "0.1 L/min", "12 months" no: months are not a unit. A number without a unit is a
// count. Empty: not an amount of that dimension.
std::optional<Amount> amount_of(std::string_view text, Dimension dimension);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "quantity/units.hpp"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <utility>

#include "diagnostic/letters.hpp"
#include "quantity/unit_table.hpp"

namespace driftwarden {

namespace {

using namespace unit_table;  // the names of the units
using enum Dimension;

constexpr std::pair<std::string_view, std::string_view> plain_forms[] = {
    {"°", "deg"}, {"º", "deg"},     {"˚", "deg"},   {"℃", "degc"},  {"℉", "degf"}, {"³", "3"}, {"µ", "u"},
    {"μ", "u"},   {"\xC2\xA0", ""}, {"\u202F", ""}, {"\u2009", ""}, {"^", ""},     {" ", ""},  {"\t", ""},
};

bool is_lower(char c) { return c >= 'a' && c <= 'z'; }

// A unit's name in lower case, without blanks, "°" as "deg", "³" as "3", "µ" (of two kinds) as "u".
std::string folded(std::string_view name) {
  std::string text;
  while (!name.empty()) {
    const auto* const form =
        std::ranges::find_if(plain_forms, [&](const auto& plain) { return name.starts_with(plain.first); });
    if (form != std::end(plain_forms)) {
      text += form->second;
      name.remove_prefix(form->first.size());
    } else {
      text += small_letter(name[0]);
      name.remove_prefix(1);
    }
  }
  return text;
}

// "ML" and "ML/min" are megalitres, a thousand million times a millilitre, and "Mg" is a tonne; only in a heading all
// in capitals, as in "ML/MIN" and "MG", does the big M mean nothing.
bool is_mega(std::string_view name, std::string_view folded_name) {
  if (!name.starts_with('M')) return false;
  if (folded_name.starts_with("mg")) return std::ranges::any_of(name, is_lower);
  if (!folded_name.starts_with("ml")) return false;
  return folded_name == "ml" || std::ranges::any_of(name, is_lower);
}

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t") + 1 - begin);
}

}  // namespace

std::string_view to_text(Dimension dimension) {
  switch (dimension) {
    case flow:
      return "flow";
    case temperature:
      return "temperature";
    case temperature_difference:
      return "temperature difference";
    case pressure:
      return "pressure";
    case Dimension::time:
      return "time";
    case length:
      return "length";
    case Dimension::ratio:
      return "ratio";
    case volume:
      return "volume";
    case count:
      return "count";
    case diameter:
      return "diameter";
    case mass:
      return "mass";
    case fibres:
      return "number of fibres";
    case concentration:
      return "concentration";
  }
  return {};
}

std::optional<Unit> unit_named(std::string_view name, Dimension dimension) {
  const std::string wanted = folded(name);
  if (is_mega(trimmed(name), wanted)) return std::nullopt;
  for (const Spelling& spelling : spellings) {
    if (spelling.unit.dimension == dimension && spelling.folded == wanted) return spelling.unit;
  }
  return std::nullopt;
}

std::span<const std::string_view> unit_names(Dimension dimension) {
  switch (dimension) {
    case flow:
      return flow_names;
    case temperature:
      return temperature_names;
    case temperature_difference:
      return difference_names;
    case pressure:
      return pressure_names;
    case Dimension::time:
      return time_names;
    case length:
      return length_names;
    case Dimension::ratio:
      return ratio_names;
    case volume:
      return volume_names;
    case count:
      return count_names;
    case diameter:
      return diameter_names;
    case mass:
      return mass_names;
    case fibres:
      return fibre_names;
    case concentration:
      return concentration_names;
  }
  return {};
}

Unit inside_unit(Dimension dimension) {
  switch (dimension) {
    case flow:
      return litre_per_minute;
    case temperature:
      return kelvin;
    case temperature_difference:
      return kelvin_apart;
    case pressure:
      return kilopascal;
    case Dimension::time:
      return minute;
    case length:
      return metre;
    case Dimension::ratio:
      return plain_ratio;
    case volume:
      return litre;
    case count:
      return plain_count;
    case diameter:
      return micrometre;
    case mass:
      return milligram;
    case fibres:
      return fibre;
    case concentration:
      return milligram_per_cubic_metre;
  }
  return {};
}

Unit customary_unit(Dimension dimension) {
  if (dimension == temperature) return degree_celsius;
  if (dimension == Dimension::ratio) return percent;
  return inside_unit(dimension);
}

std::optional<Amount> amount_of(std::string_view text, Dimension dimension) {
  text = trimmed(text);
  const std::size_t sign = text.starts_with('+') || text.starts_with('-') ? 1 : 0;
  double unused = 0;
  const char* const end = std::from_chars(text.data() + sign, text.data() + text.size(), unused).ptr;
  const auto length_of_number = static_cast<std::size_t>(end - text.data());
  const std::string_view unit_text = trimmed(text.substr(length_of_number));
  if (unit_text == "1") return std::nullopt;  // the plain unit of a heading; "5 1" is no amount
  const std::optional<double> written = number_from(text.substr(0, length_of_number));
  const std::optional<Unit> unit = unit_named(unit_text, dimension);
  if (!written || !unit) return std::nullopt;
  return Amount{unit->to_inside(*written), dimension, *unit, *written};
}

}  // namespace driftwarden

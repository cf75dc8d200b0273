// SPDX-License-Identifier: MIT
#include "rule/stated_amount.hpp"

#include <array>

namespace driftwarden {

namespace {

constexpr std::array<Dimension, 13> dimensions = {
    Dimension::flow,         Dimension::temperature, Dimension::temperature_difference,
    Dimension::pressure,     Dimension::time,        Dimension::length,
    Dimension::ratio,        Dimension::volume,      Dimension::count,
    Dimension::diameter,     Dimension::mass,        Dimension::fibres,
    Dimension::concentration};

bool has_unit(const Amount& amount) { return !amount.written_unit.name.empty(); }

// An amount of this dimension, with a unit where the dimension has any.
std::optional<Amount> complete_amount(std::string_view text, Dimension dimension) {
  const std::optional<Amount> amount = amount_of(text, dimension);
  const bool complete = amount && (dimension == Dimension::count || has_unit(*amount));
  return complete ? amount : std::nullopt;
}

std::string units_of(Dimension dimension) {
  std::string text;
  for (const std::string_view name : unit_names(dimension)) {
    if (name == "1") continue;  // the plain unit: nothing is written
    text += text.empty() ? "" : ", ";
    text += name;
  }
  return text;
}

std::string known_units(const AmountOf& of) {
  if (of.dimension == Dimension::count) return "write a number without a unit";
  std::string text = "units read are " + units_of(of.dimension);
  if (of.absolute) text += " or, of the difference itself, " + units_of(*of.absolute);
  return text;
}

std::optional<Dimension> another_dimension(std::string_view text) {
  for (const Dimension dimension : dimensions) {
    if (complete_amount(text, dimension)) return dimension;
  }
  return std::nullopt;
}

Diagnostic fault_of(std::string_view text, const AmountOf& of, const Place& place) {
  const std::optional<Dimension> other = another_dimension(text);
  if (other == Dimension::count) {
    return error("amount/no-unit", place, in_quotes(text) + " lacks a unit", known_units(of));
  }
  const std::string name(of.name);
  if (!other) {
    return error("amount/not-an-amount", place, in_quotes(text) + " is no amount of " + name, known_units(of));
  }
  const std::string kinds = std::string(to_text(*other)) + ", " + name + " a " + std::string(to_text(of.dimension));
  return error("amount/wrong-dimension", place, in_quotes(text) + " is a " + kinds, known_units(of));
}

}  // namespace

Result<StatedAmount> stated_amount(std::string_view text, const AmountOf& of, const Place& place) {
  if (const auto amount = complete_amount(text, of.dimension)) return StatedAmount{*amount, false};
  if (of.absolute) {
    if (const auto difference = complete_amount(text, *of.absolute)) return StatedAmount{*difference, true};
  }
  return fault_of(text, of, place);
}

}  // namespace driftwarden

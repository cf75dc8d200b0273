// SPDX-License-Identifier: MIT
#include "book/toml_file.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "book/toml_guard.hpp"

namespace driftwarden {

namespace {

Place place_at(const toml::source_position& position, const std::string& file) {
  return {file, position.line, position.column};
}

bool is_control_byte(char c) { return static_cast<unsigned char>(c) < 0x20U || c == 0x7F; }

std::string_view line_of(std::string_view text, std::uint32_t number) {
  for (; number > 1; --number) text.remove_prefix(std::min(text.find('\n') + 1, text.size()));
  return text.substr(0, text.find('\n'));
}

// What word processors and telephones make of quotes.
std::string hint_at_quotes(std::string_view line) {
  for (const std::string_view mark : {"“", "”", "„", "‘", "’", "«", "»", "″"}) {
    if (line.find(mark) != std::string_view::npos)
      return "the line has the quotes of a word processor, " + std::string(mark) + ": write straight ones, \"";
  }
  return {};
}

}  // namespace

Place TomlFile::place_of(const toml::node& node) const { return place_at(node.source().begin, name); }
Place TomlFile::place_of(const toml::key& key) const { return place_at(key.source().begin, name); }

void TomlFile::fault(std::string id, Place place, std::string message, std::string hint) {
  faults.push_back(error(std::move(id), std::move(place), std::move(message), std::move(hint)));
}

std::optional<toml::table> toml_of(std::string_view text, TomlFile& file) {
  if (auto fault = fault_of_size_or_depth(text, file.name)) {
    file.faults.push_back(*std::move(fault));
    return std::nullopt;
  }
  try {
    return toml::parse(text, std::string_view(file.name));
  } catch (const toml::parse_error& fault) {
    // The library quotes the input in its messages.
    file.fault("toml/syntax", place_at(fault.source().begin, file.name),
               "this is not TOML: " + without_controls(fault.description()),
               hint_at_quotes(line_of(text, fault.source().begin.line)));
    return std::nullopt;
  }
}

std::optional<double> figure_of(const toml::node& node) {
  const std::optional<double> figure = node.is_number() ? node.value<double>() : std::nullopt;
  return figure && std::isfinite(*figure) ? figure : std::nullopt;
}

std::string_view type_of(const toml::node& node) {
  if (node.is_number() && !figure_of(node)) return "no figure";  // nan and inf are numbers of TOML
  switch (node.type()) {
    case toml::node_type::string:
      return "text";
    case toml::node_type::integer:
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::table:
      return "a table";
    default:
      return "a date or time";
  }
}

std::vector<TomlEntry> entries_of(const toml::table& table) {
  std::vector<TomlEntry> entries;
  for (auto&& [key, value] : table) entries.push_back({&key, &value});
  std::ranges::stable_sort(entries, [](const TomlEntry& a, const TomlEntry& b) {
    const toml::source_position& first = a.key->source().begin;
    const toml::source_position& second = b.key->source().begin;
    return std::tie(first.line, first.column) < std::tie(second.line, second.column);
  });
  return entries;
}

bool has_controls(std::string_view text) { return std::ranges::any_of(text, is_control_byte); }

std::string without_controls(std::string_view text) {
  std::string plain(text);
  std::ranges::replace_if(plain, is_control_byte, ' ');
  return plain;
}

Diagnostics in_reading_order(Diagnostics faults) {
  std::ranges::stable_sort(faults, [](const Diagnostic& a, const Diagnostic& b) { return a.place < b.place; });
  return faults;
}

}  // namespace driftwarden

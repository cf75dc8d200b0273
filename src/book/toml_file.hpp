// SPDX-License-Identifier: MIT
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// A TOML file being read: its name, and what is wrong with it so far.
struct TomlFile {
  std::string name;
  Diagnostics faults;

  Place place_of(const toml::node& node) const;
  Place place_of(const toml::key& key) const;
  void fault(std::string id, Place place, std::string message, std::string hint = {});
};

// Empty: the text is not TOML, or more of it than is safe to hand to the library; the fault is in the file's.
std::optional<toml::table> toml_of(std::string_view text, TomlFile& file);

// "text", "a number", "a list", …
std::string_view type_of(const toml::node& node);

// Of a number that is one: TOML knows nan and inf, too.
std::optional<double> figure_of(const toml::node& node);

// The entries of a table as they were written (the library keeps them by alphabet).
struct TomlEntry {
  const toml::key* key;
  const toml::node* value;
};
std::vector<TomlEntry> entries_of(const toml::table& table);

bool has_controls(std::string_view text);
// With a blank for each control character: no control character of an input may reach a terminal.
std::string without_controls(std::string_view text);

// Faults from the top of the file to its end.
Diagnostics in_reading_order(Diagnostics faults);

}  // namespace driftwarden

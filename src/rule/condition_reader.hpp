// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rule/condition.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// A rule's `where`: kind = "sample", method = ["A", "B"], batch = { none_of = ["C"] }, nominal = { at_least = "1 L/min"
// }.
std::vector<Condition> read_where(const toml::table& where, Subject of, TomlFile& file);

// What is wrong with a word as the content of a field, if anything.
std::optional<Diagnostic> fault_of_word(const Field& field, std::string_view word, const Place& place);

}  // namespace driftwarden

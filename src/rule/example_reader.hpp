// SPDX-License-Identifier: MIT
#pragma once

#include "rule/example.hpp"
#include "rule/rule.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// Reads the examples of a rule that is otherwise complete; where its measure isn't known, what they give is not
// checked.
void read_examples(TableReader& reader, TomlFile& file, Rule& rule, bool measure_is_known);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include "rule/pack.hpp"
#include "rule/rule.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// Reads one [[rule]] of a pack whose name and edition are known. What is wrong with it goes to the file's faults.
Rule read_rule(const toml::table& table, TomlFile& file, const Pack& pack);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rule/practice.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// The table [practice] of a pack, which names its `source`, or of a book, which gives its `reason`.
std::vector<PracticeChoice> read_practice(TableReader& reader, TomlFile& file, std::string_view grounds_key,
                                          const std::string& pack);

}  // namespace driftwarden

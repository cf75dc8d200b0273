// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "rule/selector.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// The [method.NAME] and [analysis.NAME] tables of a pack, or of a book, whose `pack` is "". Faults: toml/…, amount/…,
// method/no-mass, method/no-count, method/from-memory, method/crossed.
std::vector<DescribedWord> read_described_words(TableReader& reader, TomlFile& file, const std::string& pack);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "rule/selector.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// The [method.NAME] and [analysis.NAME] tables of a pack or a book.
std::vector<DescribedWord> read_described_words(TableReader& reader, TomlFile& file);

}  // namespace driftwarden

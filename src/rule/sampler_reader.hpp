// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "rule/sampler.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// The [sampler.NAME] tables of a pack, or of a book ("").
std::vector<Sampler> read_samplers(TableReader& reader, TomlFile& file, const std::string& pack);

}  // namespace driftwarden

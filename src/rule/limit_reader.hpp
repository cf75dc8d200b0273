// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "rule/stated_limit.hpp"
#include "rule/toml_reader.hpp"

namespace driftwarden {

// The limit among a table's keys (`within`, `at_most`, …), of a rule or an override. Empty: there is none, or one that
// can't be used, which is reported; has_limit tells them apart. Two limits are reported.
struct FoundLimit {
  bool has_limit = false;
  std::optional<WrittenLimit> limit;
};

FoundLimit read_limit(TableReader& reader, TomlFile& file);

}  // namespace driftwarden

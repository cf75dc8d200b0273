// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "statistics/run_rules.hpp"

namespace driftwarden {

// A run rule under the name it has in book.toml and in the data: "beyond-limits", "two-of-three", "four-of-five",
// "run-of-8", "trend-of-6", "alternating-of-14", "inside-of-15", "mixture-of-8"; the lengths may be others.
std::string name_of(const RunRule& rule);

// The rules a word stands for: one by its name, or "western-electric" or "nelson" for those sets. Empty: no such word.
std::optional<std::vector<RunRule>> run_rules_named(std::string_view word);

// Words for a message about a word that stands for nothing.
std::vector<std::string> known_run_rules();

}  // namespace driftwarden

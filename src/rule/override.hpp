// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "diagnostic/diagnostic.hpp"
#include "rule/rule.hpp"
#include "rule/stated_limit.hpp"

namespace driftwarden {

// What a book changes of a pack's rule, and why.
struct Override {
  std::string rule;  // full name, pack/id
  std::optional<WrittenLimit> limit;
  std::optional<Otherwise> otherwise;
  std::optional<bool> enabled;
  std::string reason;
  Place place;
};

// Changes the rules that are named; an error for each override that can't be followed.
Diagnostics apply_overrides(std::vector<Rule>& rules, std::span<const Override> overrides);

}  // namespace driftwarden

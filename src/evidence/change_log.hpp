// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evidence/comparison.hpp"
#include "evidence/version.hpp"

namespace driftwarden {

// An entry of the change log: the third of version 0.2.0's is {{0, 2, 0}, 3, "Budgets: …"}.
struct LoggedChange {
  Version version{};
  std::size_t number = 0;
  std::string text;
  friend bool operator==(const LoggedChange&, const LoggedChange&) = default;
};

// "0.2.0, 3", as one may look it up.
std::string name_of(const LoggedChange& change);

// The entries under a heading ("Results") of all versions later than one, in the order of the log.
std::vector<LoggedChange> changes_after(const Version& version, std::string_view heading, std::string_view log);

// Wordings that have changed since a version, as the log has them under "Wording": "- `old` is now `new`".
std::vector<Rewording> rewordings_after(const Version& version, std::string_view log);

// Those that may account for a difference, because they speak of what differs; at most three, the likeliest first. No
// more than a pointer for whoever looks into it: none of them excuses the difference.
std::vector<LoggedChange> may_account_for(const TextDifference& difference, const std::vector<LoggedChange>& changes);

}  // namespace driftwarden

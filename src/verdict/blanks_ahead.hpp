// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "rule/rule_set.hpp"
#include "rule/selector.hpp"

namespace driftwarden {

// How many blanks one rule asks for, with some samples.
struct BlanksByRule {
  const Rule* rule = nullptr;
  std::size_t least = 0;
  bool is_share = false;
};

// How many blanks a batch needs.
//
//   n = max(n_count, min(n_share, n_max))        n_share = the least whole number with n / N ≥ share
//
//   N        samples of the batch that are no blanks
//   n_count  that rules on the number of blanks ask for; n_share: that rules on their share do
//   n_max    so many are enough for any set, where the method says so
//   Source   the rules in force, and the method's fact, each with its own
//   Valid    rules that ask for at least some; a share that only a note follows from is asked for like any other
//   Example  N = 24, at least 2 and at least 20 %, ten enough for any set (NMAM 0600, chapter D 7.d): 5; N = 60: 10
struct BlanksAhead {
  std::size_t samples = 0;
  std::size_t least = 0;
  bool is_capped = false;          // by n_max
  std::optional<MassFact> enough;  // n_max; nothing: nobody states one
  std::vector<BlanksByRule> rules;
};
BlanksAhead blanks_ahead(const RuleSet& rules, std::string_view batch, std::size_t samples,
                         const std::optional<MassFact>& enough);

// How many blanks are enough for a batch, by what is stated of each of its samples: the largest number, in whatever
// order they stand; nothing where nobody states it of one of them, for then a share holds for the whole batch.
std::optional<MassFact> enough_blanks(std::span<const MassFacts> of_samples);

}  // namespace driftwarden

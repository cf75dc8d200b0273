// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "verdict/message.hpp"
#include "verdict/screening.hpp"
#include "verdict/totals.hpp"

namespace driftwarden {

// What one set of rules says to one measure of a sample: its strictest rule about it.
struct HeldTo {
  std::string rule;  // full name
  Outcome outcome = Outcome::met;
  Reported figures;     // value, limit and margin in the unit given
  std::string limit;    // in words
  std::string message;  // the finding, or the figure and how it meets the limit
};

// A measure of a sample of which two sets of rules say different things. Nothing on a side: no rule there is about it.
struct Difference {
  std::string measure;  // "drift", "rsd of the pre set"
  std::optional<HeldTo> before;
  std::optional<HeldTo> after;
};

struct ChangedSample {
  Row sample = no_row;
  Verdict before = Verdict::valid;
  Verdict after = Verdict::valid;
  std::vector<Difference> differences;  // at least one
};

// Which verdicts would change under other rules. Decisions don't count: they ruled on findings of the rules before.
struct RuleComparison {
  Totals before;
  Totals after;
  std::array<std::array<std::size_t, 4>, 4> samples{};  // [verdict before][verdict after]
  std::vector<ChangedSample> changed;                   // in the book's order
};

// Both screenings are of one book. The samples are those given.
RuleComparison compare_rules(const Screening& before, const Screening& after, const std::vector<Row>& samples);

}  // namespace driftwarden

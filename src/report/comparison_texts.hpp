// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "history/rule_comparison.hpp"
#include "report/paint.hpp"

namespace driftwarden {

// What two sets of rules make of one book: `before` are the book's own.
struct ComparedRules {
  const Screening& before;
  const Screening& after;
  const RuleComparison& comparison;
  std::string_view version;
  Day as_of = no_day;
};

// `compare` as a table of at most 80 columns for people: what was compared, each sample whose verdict would change with
// the measures that make the difference and their margins, and how many change from what to what.
std::string comparison_table(const ComparedRules& compared, Paint paint);

// As CSV, a line a difference. Figures are written in full, margins are positive inside a limit.
std::string comparison_csv(const ComparedRules& compared);

// As one JSON object.
std::string comparison_json(const ComparedRules& compared);

}  // namespace driftwarden

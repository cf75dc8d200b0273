// SPDX-License-Identifier: MIT
#pragma once

#include "rule/rule_set.hpp"
#include "workshop/book_with_rows.hpp"

namespace driftwarden {

// What of the rows that came is not as it was planned, or can't have been at the time that is written.
//   receive/refused      errors: another batch, kind, pump or sampler than planned, or the medium of another sample;
//                        a sample that is not planned for its batch
//   receive/unlike-plan  other medium, nominal flow, method, analysis, day or calibrator than planned
//   receive/not-planned  a batch that is not in the plan
//   receive/ahead        a time behind the day that stands for today
//   receive/long-ago     one long before it
//   receive/out-of-order a pre reading after the start, a post reading before the stop, or either days away; a sample
//                        that ran for a week
Diagnostics rows_at_odds(const BookWithRows& with, const RuleSet& rules, Day as_of);

}  // namespace driftwarden

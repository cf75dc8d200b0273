// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "driftwarden/history/review_action.hpp"
#include "driftwarden/verdict/screening.hpp"

namespace driftwarden {

// The decision about one finding of a sample, taken on or before a day: the last one, or nullptr.
const Decision* decision_on(const Screening& screening, const SampleResult& result, const Finding& finding, Day as_of);

// Whether a responsible person has ruled on everything that gave the sample its verdict.
bool is_settled(const Screening& screening, const SampleResult& result, Day as_of);

// What has to be done about a sample: nothing where it is valid, or settled, or only a record has to be mended (that
// is an action about the record).
std::optional<ReviewAction> action_about(const Screening& screening, const SampleResult& result, Day as_of);

}  // namespace driftwarden

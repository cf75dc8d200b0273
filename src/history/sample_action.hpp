// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "history/review_action.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// What has to be done about a sample: nothing where it is valid, or settled, or only a record has to be mended (that
// is an action about the record).
std::optional<ReviewAction> action_about(const Screening& screening, const SampleResult& result);

}  // namespace driftwarden

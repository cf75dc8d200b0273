// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/review.hpp"

namespace driftwarden {

// A review as JSON (docs/review.schema.json): what is to be done, by whom and by when, what is done, how the batches
// and the samples stand, what falls due, what could not be judged.
std::string review_json(const Screening& screening, const Review& review, Day as_of, const std::string& version);

}  // namespace driftwarden

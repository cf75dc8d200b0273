// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "book/book.hpp"
#include "history/review_action.hpp"

namespace driftwarden {

// Puts the actions of one cause together; what is touched by none stays as it was.
//   A calibrator takes in the samples that its papers alone are the reason for, or its own and those of others. Where
//   it is known to be wrong, or its pumps say so, it takes in the pumps and samples that its error may explain: they
//   wait for the look-back. A pump out of tolerance takes in the samples that it spoilt. A batch takes in its samples
//   of which the same is to be said, from two on. Instruments of which the very same is to be said come together.
std::vector<ReviewAction> by_cause(const Book& book, std::vector<ReviewAction> actions);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/review.hpp"

namespace driftwarden {

// "7 things to do: 2 before anything is sampled again, 1 by 2026-12-03, 4 without a date; 12 more are open from before"
std::string how_much(const Review& review);

// Whom an action is about, as a page names it: "PUMP-07", "batch TF44B".
std::string name_of(const ActionKey& key);

// Those of an action of whom the same is to be done, in a line.
struct TouchedWith {
  std::string names;      // "TF44B-2, TF44B-3 and 9 more"
  std::string_view what;  // points into the action
  std::string said;       // of the first of them
};
std::vector<TouchedWith> touched_of(const ReviewAction& action);

}  // namespace driftwarden

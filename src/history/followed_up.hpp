// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "history/review_action.hpp"

namespace driftwarden {

// An action that actions.csv speaks of, and that is not to be done now.
struct NotedAction {
  ActionKey key;
  Assigned assigned;
  Row row = no_row;                   // of the sample or instrument, where the records give rise to it
  const ReviewAction* now = nullptr;  // of which it is a part by now, among those to do
};

// What became of a review's actions.
struct FollowedUp {
  std::vector<ReviewAction> to_do;  // most urgent first
  std::vector<NotedAction> done;    // though the records still give rise to them, or done in the days reviewed
  std::vector<NotedAction> lapsed;  // given to somebody, not done, and the records give no more rise to them
};

// Holds the actions that the records give rise to against what was written down about them. One stays to be done until
// somebody wrote down that it is done; then it is over, unless a record that is newer than that day gives rise to it
// again. What the records say every day, that a calibrator is overdue or a row can't be understood, is over when they
// say it no more, whatever was written down. One that somebody sees to is told as recent. `from`: the first of the days
// reviewed.
FollowedUp followed_up(const Book& book, std::vector<ReviewAction> actions, Day from, Day as_of);

}  // namespace driftwarden

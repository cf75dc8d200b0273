// SPDX-License-Identifier: MIT
#include "history/review_action.hpp"

#include <gtest/gtest.h>

namespace driftwarden::review_action_test {
namespace {

ReviewAction action(ActionKind kind, const std::string& name, bool is_recent = true) {
  return {kind, ActionSubject::sample, name, "", {}, no_row, is_recent};
}

TEST(ReviewActions, ComeMostUrgentFirst) {
  std::vector<ReviewAction> actions{action(ActionKind::weigh, "A"), action(ActionKind::resample, "B"),
                                    action(ActionKind::look_back, "C"), action(ActionKind::find_reading, "D")};
  sort_by_urgency(actions);
  EXPECT_EQ(actions[0].name + actions[1].name + actions[2].name + actions[3].name, "CBDA");
}

TEST(ReviewActions, OpenFromBeforeComeBehindAllOfTheseDays) {
  std::vector<ReviewAction> actions{action(ActionKind::look_back, "A", false), action(ActionKind::watch, "B")};
  sort_by_urgency(actions);
  EXPECT_EQ(actions[0].name, "B");
}

TEST(ReviewActions, OfOneKindKeepTheirOrder) {
  std::vector<ReviewAction> actions{action(ActionKind::resample, "Z"), action(ActionKind::resample, "A")};
  sort_by_urgency(actions);
  EXPECT_EQ(actions[0].name, "Z");
}

TEST(ReviewActions, AreCountedByWhenTheyHaveToBeDone) {
  std::vector<ReviewAction> actions{action(ActionKind::recalibrate, "A"), action(ActionKind::resample, "B"),
                                    action(ActionKind::adjust_soon, "C"), action(ActionKind::adjust_soon, "D"),
                                    action(ActionKind::look_back, "E", false)};
  actions[2].by = 200;
  actions[3].by = 100;
  const ActionTimes times = times_of(actions);
  EXPECT_EQ(times.at_once, 1U);
  EXPECT_EQ(times.without_a_day, 1U);
  EXPECT_EQ(times.by_a_day, 2U);
  EXPECT_EQ(times.first, 100);
}

TEST(ReviewActions, HaveANameEach) {
  for (int kind = 0; kind <= static_cast<int>(ActionKind::watch); ++kind)
    EXPECT_NE(to_text(static_cast<ActionKind>(kind)), "") << kind;
}

}  // namespace
}  // namespace driftwarden::review_action_test

// SPDX-License-Identifier: MIT
#include "record/assignment.hpp"

#include <gtest/gtest.h>

#include <set>

namespace driftwarden::assignment_test {
namespace {

// A file names them by these words: two of one word could not be told apart.
TEST(Assignment, HasAWordOfItsOwnForEveryKindAndSubject) {
  EXPECT_EQ(std::set<std::string_view>(std::begin(action_kind_words), std::end(action_kind_words)).size(), 17U);
  EXPECT_EQ(to_text(ActionKind::look_back), "Look back");
  EXPECT_EQ(to_text(ActionKind::watch), "Watch");
  EXPECT_EQ(to_text(ActionSubject::records), "records");
}

TEST(Assignment, IsOfOneActionByKindSubjectAndName) {
  const ActionKey watch{ActionKind::watch, ActionSubject::instrument, "P1"};
  EXPECT_EQ(watch, (ActionKey{ActionKind::watch, ActionSubject::instrument, "P1"}));
  EXPECT_NE(watch, (ActionKey{ActionKind::watch, ActionSubject::sample, "P1"}));
  EXPECT_NE(watch, (ActionKey{ActionKind::take_out, ActionSubject::instrument, "P1"}));
  EXPECT_NE(watch, (ActionKey{ActionKind::watch, ActionSubject::instrument, "P2"}));
}

}  // namespace
}  // namespace driftwarden::assignment_test

// SPDX-License-Identifier: MIT
#include "report/action_list.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::action_list_test {
namespace {

Assigned given(const Assignment& row, const std::string& due) {
  Assigned assigned;
  assigned.who = "workshop";
  assigned.due = day(due);
  assigned.last = &row;
  return assigned;
}

TEST(ActionList, HasALineForEachActionWithWhoSeesToIt) {
  const Assignment row;
  ReviewAction action{ActionKind::take_out, ActionSubject::instrument, "P1", "", {}, 0, true};
  action.assigned = given(row, "2026-09-30");
  action.assigned.note = "ran hot";
  Review review;
  review.actions = {action, {ActionKind::complete_batch, ActionSubject::batch, "B1", "", {}, no_row, true}};
  EXPECT_EQ(action_list(review, day("2026-09-24")),
            "2 things to do: 1 before anything is sampled again, 1 without a date\n"
            "  Take out of use       P1: workshop, by 2026-09-30; ran hot\n"
            "  Look at the batch     batch B1\n");
}

TEST(ActionList, SaysWhatBecameOfTheOthers) {
  const Assignment row;
  Review review;
  Assigned done = given(row, "2026-09-30");
  done.done = day("2026-09-23");
  review.done = {{{ActionKind::watch, ActionSubject::instrument, "P1"}, done}};
  const ReviewAction whole{ActionKind::recalibrate, ActionSubject::instrument, "V1", "", {}, 0, true};
  review.lapsed = {{{ActionKind::weigh, ActionSubject::sample, "S1"}, given(row, "2026-09-30"), no_row, &whole}};
  EXPECT_EQ(action_list(review, day("2026-09-24")),
            "Nothing from these days needs action\n"
            "Done\n"
            "  Watch                 P1: done on 2026-09-23 (workshop)\n"
            "The records give no more rise to these: write them down as done, or look why\n"
            "  Weigh the finding     S1: workshop, not written down as done; it is part of Recalibrate: V1 by now\n");
}

TEST(ActionList, SaysThatADayIsPastAndThatSomethingIsNotOverThoughDone) {
  const Assignment row;
  Assigned late = given(row, "2026-09-23");
  EXPECT_EQ(who_sees_to(late, day("2026-09-23")), "workshop, by 2026-09-23");
  EXPECT_EQ(who_sees_to(late, day("2026-09-24")), "workshop, by 2026-09-23, which is past");
  late.done = day("2026-09-22");
  EXPECT_EQ(who_sees_to(late, day("2026-09-24")),
            "written down as done on 2026-09-22, and the records still give rise to it");
  EXPECT_EQ(who_sees_to({}, day("2026-09-24")), "");
}

}  // namespace
}  // namespace driftwarden::action_list_test

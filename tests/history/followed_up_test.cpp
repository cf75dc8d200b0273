// SPDX-License-Identifier: MIT
#include "history/followed_up.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::followed_up_test {
namespace {

// S1, of 2026-09-21, is void, for it took too long; what was written down about it; reviewed on a day.
ReviewedBook reviewed(const std::string& rows, const std::string& as_of = "2026-09-24", int days = 7) {
  BookText text;
  text.actions = "written,by,action,about,name,who,due,done,note\n" + rows;
  return ReviewedBook(text, {{{Subject::sample, "minutes", "at_most", {"400 min"}}}}, as_of, days);
}
const std::string given = "2026-09-22T10:00,hygienist,Sample again,sample,S1,workshop,2026-09-30,,\n";
const std::string done = "2026-09-23T10:00,hygienist,Sample again,sample,S1,,,yes,\n";

TEST(FollowedUp, AnActionIsToldWithWhoSeesToIt) {
  const ReviewedBook book = reviewed(given);
  ASSERT_EQ(book.review().actions.size(), 1U);
  EXPECT_EQ(book.review().actions[0].assigned.who, "workshop");
  EXPECT_EQ(book.review().actions[0].last_day(), day("2026-09-30"));
}

TEST(FollowedUp, WhatSomebodySeesToIsCarriedOverUntilItIsDone) {
  EXPECT_EQ(reviewed("", "2026-11-16").actions(), std::vector<std::string>{"(Sample again S1)"});
  EXPECT_EQ(reviewed(given, "2026-11-16").actions(), std::vector<std::string>{"Sample again S1"});
  EXPECT_TRUE(reviewed(given + done, "2026-11-16").actions().empty());
}

TEST(FollowedUp, WhatIsDoneIsToldAsLongAsTheRecordsGiveRiseToIt) {
  const ReviewedBook book = reviewed(done, "2026-11-16");
  ASSERT_EQ(book.review().done.size(), 1U);
  EXPECT_EQ(book.review().done[0].key.name, "S1");
  EXPECT_EQ(book.review().done[0].row, 0U);
}

TEST(FollowedUp, ANewerRecordThatGivesRiseToItOpensItAgain) {
  const ReviewedBook book = reviewed("2026-09-20T10:00,hygienist,Sample again,sample,S1,,,yes,\n");
  EXPECT_EQ(book.actions(), std::vector<std::string>{"Sample again S1"});
  EXPECT_TRUE(book.review().done.empty());
}

TEST(FollowedUp, WhatTheRecordsSayEveryDayIsNotOverByBeingWrittenDownAsDone) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-22,2,2,2\nC2,V2,2026-01-05,,2,2,2\n";
  text.actions = "written,by,action,about,name,done\n2026-09-23T10:00,hygienist,Recalibrate,instrument,V1,yes\n";
  const ReviewedBook book(text);
  ASSERT_EQ(book.actions(), std::vector<std::string>{"Recalibrate V1"});
  EXPECT_TRUE(book.review().actions[0].assigned.is_done());
}

TEST(FollowedUp, WhatTheRecordsNoMoreAskForIsToldUntilItIsWrittenDownAsDone) {
  const std::string gone = "2026-09-22T10:00,hygienist,Watch,instrument,P1,workshop,,,\n";
  const ReviewedBook open = reviewed(gone);
  ASSERT_EQ(open.review().lapsed.size(), 1U);
  EXPECT_EQ(open.review().lapsed[0].key.name, "P1");
  EXPECT_EQ(open.review().lapsed[0].now, nullptr);
  const ReviewedBook closed = reviewed(gone + "2026-09-23T10:00,hygienist,Watch,instrument,P1,,,yes,\n");
  EXPECT_TRUE(closed.review().lapsed.empty());
  EXPECT_EQ(closed.review().done.size(), 1U) << "done in the days reviewed";
  const ReviewedBook later = reviewed(gone + "2026-09-23T10:00,hygienist,Watch,instrument,P1,,,yes,\n", "2026-11-16");
  EXPECT_TRUE(later.review().done.empty());
}

TEST(FollowedUp, OneThatBecamePartOfAnotherNamesIt) {
  const Book book = book_of({});
  ReviewAction cause{ActionKind::recalibrate, ActionSubject::instrument, "V1", "", {}, 0, true};
  cause.touched.push_back({ActionKind::weigh, "", {}, {{ActionSubject::sample, "S1", 0, true}}});
  BookText text;
  text.actions = "written,by,action,about,name,who\n2026-09-22T10:00,hygienist,Weigh the finding,sample,S1,workshop\n";
  const Book with_row = book_of(text);
  const FollowedUp followed = followed_up(with_row, {cause}, day("2026-09-17"), day("2026-09-24"));
  ASSERT_EQ(followed.lapsed.size(), 1U);
  ASSERT_NE(followed.lapsed[0].now, nullptr);
  EXPECT_EQ(followed.lapsed[0].now->name, "V1");
}

}  // namespace
}  // namespace driftwarden::followed_up_test

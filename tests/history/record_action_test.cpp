// SPDX-License-Identifier: MIT
#include "history/record_action.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::record_action_test {
namespace {

TEST(RecordActions, AreNoneForASoundBook) { EXPECT_TRUE(actions_about_records(book_of({}), {}).empty()); }

TEST(RecordActions, NameThePlaceTheFaultAndTheSamplesItTouches) {
  BookText text;
  text.readings += "2026-09-21T16:12,post,S1,V1,1.9x\n";
  const ReviewedBook book(text);
  ASSERT_EQ(book.actions(), std::vector<std::string>{"Mend the record readings.csv:4:29"});
  const ReviewAction& action = book.review().actions[0];
  ASSERT_EQ(action.why.size(), 2U);
  EXPECT_NE(action.why[0].said.find("'1.9x' is not a number"), std::string::npos);
  EXPECT_EQ(action.why[1].said, "Not judged because of it: S1");
}

TEST(RecordActions, BeyondFiftyAreCounted) {
  BookText text;
  for (int i = 0; i < 60; ++i) text.readings += "2026-09-21T16:12,post,S1,V1,x\n";
  const std::vector<ReviewAction> actions = actions_about_records(book_of(text), {});
  ASSERT_EQ(actions.size(), 51U);
  EXPECT_EQ(actions.back().why[0].said, "10 more records can't be understood");
}

TEST(RecordActions, SumUpWhatLooksDoubtful) {
  Book book = book_of({});
  book.problems.push_back(remark("doubt/copied", {"readings.csv", 2, 0}, "copied"));
  book.problems.push_back(remark("row/unknown-column", {"readings.csv", 1, 0}, "a column"));
  const std::vector<ReviewAction> actions = actions_about_records(book, {});
  ASSERT_EQ(actions.size(), 1U);
  EXPECT_EQ(actions[0].kind, ActionKind::look_into);
  EXPECT_EQ(actions[0].why[0].said, "1 record looks doubtful");
}

}  // namespace
}  // namespace driftwarden::record_action_test

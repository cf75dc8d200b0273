// SPDX-License-Identifier: MIT
#include "verdict/opened_book.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::opened_book_test {
namespace {

std::unique_ptr<OpenedBook> opened(const BookText& text, const char* as_of, Diagnostics& found) {
  Day day = no_day;
  StampReader(TimeZone::utc(), DateOrder::iso).read_date(as_of, day);
  return put_together(book_of(text), RulesText{}.rule_set(), day, 1, found);
}

BookText with_a_decision() {
  BookText text;
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S1,own/drift,overrule,seen\n";
  return text;
}

TEST(OpenedBook, LeavesOutWhatWasDecidedLater) {
  Diagnostics found;
  const auto book = opened(with_a_decision(), "2026-09-21", found);
  EXPECT_TRUE(book->book.decisions.empty());
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found.front().id, "decision/later");
  EXPECT_EQ(book->book.problems.size(), found.size());  // they join the book's
}

TEST(OpenedBook, CountsWhatWasDecidedOnTheDay) {
  Diagnostics found;
  EXPECT_EQ(opened(with_a_decision(), "2026-09-22", found)->book.decisions.size(), 1U);
}

TEST(OpenedBook, HasFaultsWhereTheBookHasErrors) {
  Diagnostics found;
  EXPECT_FALSE(opened({}, "2026-09-22", found)->has_faults());
  BookText faulty;
  faulty.samples += "S2,P9,2026-09-21T08:00,2026-09-21T16:00\n";
  EXPECT_TRUE(opened(faulty, "2026-09-22", found)->has_faults());
}

}  // namespace
}  // namespace driftwarden::opened_book_test

// SPDX-License-Identifier: MIT
#include "verdict/sample_days.hpp"

#include <gtest/gtest.h>

#include "book/stamp_text.hpp"
#include "support/book_text.hpp"

namespace driftwarden::sample_days_test {
namespace {

// Batch A ran on the 21st and the 24th, B on the 28th; BA and BB are their blanks, BX is a blank of no batch. N starts
// nobody knows when. L starts at 23:30 of the 22nd in Denver, which is the 23rd in UTC.
Book four_days() {
  BookText text;
  text.settings.replace(text.settings.find("UTC"), 3, "America/Denver");
  text.samples =
      "sample,batch,kind,pump,started,stopped\n"
      "A1,A,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "A2,A,sample,P1,2026-09-24T08:00,2026-09-24T16:00\n"
      "BA,A,blank,,,\n"
      "B1,B,sample,P1,2026-09-28T08:00,2026-09-28T16:00\n"
      "BB,B,blank,,,\n"
      "BX,,blank,,,\n"
      "N,,sample,P1,,\n"
      "L,,sample,P1,2026-09-22T23:30,2026-09-23T05:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  return book_of(text);
}

std::string day_by(const Book& book, const std::string& sample, Day last) {
  const Day day = SampleDays(book, last).day_of(row_of(book, sample));
  return day == no_day ? "none" : date_text(day);
}

std::string came_by(const Book& book, Day last) {
  const SampleDays days(book, last);
  std::string names;
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (days.has_come(row)) names += (names.empty() ? "" : " ") + std::string(book.samples.name[row]);
  }
  return names;
}

constexpr Day sept_21 = 20717;

TEST(SampleDays, AreThoseOfTheStartInTheBooksZone) {
  const Book book = four_days();
  EXPECT_EQ(day_by(book, "A1", sept_21), "2026-09-21");
  EXPECT_EQ(day_by(book, "L", sept_21), "2026-09-22");
  EXPECT_EQ(day_by(book, "N", sept_21), "none");
}

TEST(SampleDays, OfABlankAreTheLastOfItsBatchThatHasCome) {
  const Book book = four_days();
  EXPECT_EQ(day_by(book, "BA", sept_21 + 9), "2026-09-24");
  EXPECT_EQ(day_by(book, "BA", sept_21 + 1), "2026-09-21");
  EXPECT_EQ(day_by(book, "BA", sept_21 - 1), "2026-09-21");
  EXPECT_EQ(day_by(book, "BX", sept_21), "none");
}

TEST(SampleDays, OfABlankOfTheVeryDayAreThatDay) { EXPECT_EQ(day_by(four_days(), "BA", sept_21 + 3), "2026-09-24"); }

// A blank that says when it was carried has its own day; a sample without times has none, whatever its batch.
TEST(SampleDays, AreOfTheBatchOnlyForABlankWithoutTimes) {
  BookText text;
  text.samples =
      "sample,batch,kind,pump,started,stopped\nA1,A,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "N1,A,sample,P1,,\nBA,A,blank,P1,2026-09-20T08:00,2026-09-20T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const Book book = book_of(text);
  EXPECT_EQ(day_by(book, "N1", sept_21), "none");
  EXPECT_EQ(day_by(book, "BA", sept_21), "2026-09-20");
}

TEST(SampleDays, OfABlankAreNoneWhereTheBookKnowsNoBatches) {
  BookText text;
  text.samples = "sample,kind,pump,started,stopped\nA1,sample,P1,2026-09-21T08:00,2026-09-21T16:00\nBA,blank,,,\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  EXPECT_EQ(day_by(book_of(text), "BA", sept_21), "none");
}

TEST(SampleDays, LeaveOutWhatIsStillToCome) {
  const Book book = four_days();
  EXPECT_EQ(came_by(book, sept_21 - 1), "BX N");
  EXPECT_EQ(came_by(book, sept_21 + 1), "A1 BA BX N L");
  EXPECT_EQ(came_by(book, sept_21 + 7), "A1 A2 BA B1 BB BX N L");
}

}  // namespace
}  // namespace driftwarden::sample_days_test

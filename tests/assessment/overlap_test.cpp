// SPDX-License-Identifier: MIT
#include "assessment/overlap.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::overlap_test {
namespace {

double shared(const Book& book, std::string_view sample) {
  return overlaps_of(book.samples, book.instruments.size())[row_of(book, sample)].minutes;
}

// With which sample it shares most; "" for none.
std::string partner(const Book& book, std::string_view sample) {
  const Row with = overlaps_of(book.samples, book.instruments.size())[row_of(book, sample)].with;
  return with == no_row ? "" : std::string(book.samples.name[with]);
}

Book book_with_samples(const std::string& rows, const std::string& heading = "sample,pump,started,stopped\n") {
  BookText text;
  text.samples = heading + rows;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  return book_of(text);
}

TEST(Overlap, IsTheTimeTwoSamplesShareOnOnePump) {
  const Book book = book_with_samples(
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,P1,2026-09-21T11:35,2026-09-21T16:00\n");
  EXPECT_EQ(shared(book, "A"), 25);
  EXPECT_EQ(shared(book, "B"), 25);
  EXPECT_EQ(partner(book, "A"), "B");
  EXPECT_EQ(partner(book, "B"), "A");
  const SharedTime time = shared_time(book.samples, row_of(book, "A"), row_of(book, "B"));
  EXPECT_EQ(time.from, book.samples.started[row_of(book, "B")]);
  EXPECT_EQ(time.to, book.samples.stopped[row_of(book, "A")]);
}

TEST(Overlap, IsNoneWhereOneStartsAsTheOtherStops) {
  const Book book = book_with_samples(
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,P1,2026-09-21T12:00,2026-09-21T16:00\n");
  EXPECT_EQ(shared(book, "A"), 0);
  EXPECT_EQ(shared(book, "B"), 0);
  EXPECT_EQ(partner(book, "A"), "");
}

TEST(Overlap, IsNoneOnTwoPumps) {
  const Book book = book_with_samples(
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,P2,2026-09-21T08:00,2026-09-21T12:00\n");
  EXPECT_EQ(shared(book, "A"), 0);
}

TEST(Overlap, IsTheLongestWhereThereAreSeveralWhateverTheOrderOfTheRows) {
  const Book book = book_with_samples(
      "C,P1,2026-09-21T11:00,2026-09-21T11:10\n"
      "B,P1,2026-09-21T11:30,2026-09-21T16:00\n"
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n");
  EXPECT_EQ(shared(book, "A"), 30);
  EXPECT_EQ(shared(book, "B"), 30);
  EXPECT_EQ(shared(book, "C"), 10);  // all of it lies inside A
  EXPECT_EQ(partner(book, "A"), "B");
  EXPECT_EQ(partner(book, "C"), "A");
}

TEST(Overlap, OfTwoThatShareAsMuchIsWithTheFirstOfTheBook) {
  const Book book = book_with_samples(
      "C,P1,2026-09-21T11:30,2026-09-21T14:00\n"
      "B,P1,2026-09-21T07:00,2026-09-21T08:30\n"
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n");
  EXPECT_EQ(shared(book, "A"), 30);
  EXPECT_EQ(partner(book, "A"), "C");
}

TEST(Overlap, OfTwoWithOneStartIsTheShorterOfThem) {
  const Book book = book_with_samples(
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,P1,2026-09-21T08:00,2026-09-21T09:00\n");
  EXPECT_EQ(shared(book, "A"), 60);
  EXPECT_EQ(shared(book, "B"), 60);
}

// In the hour that comes twice the clock's hands would say that these two overlap.
TEST(Overlap, IsReckonedOnTheAbsoluteTimeLine) {
  BookText text;
  text.settings = "title = \"Quarry\"\ntime_zone = \"MST7MDT,M3.2.0,M11.1.0\"\n";
  text.samples =
      "sample,pump,started,stopped\n"
      "A,P1,2026-10-31T22:00,2026-11-01T01:40-06:00\n"
      "B,P1,2026-11-01T01:10-07:00,2026-11-01T05:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const Book book = book_of(text);
  EXPECT_EQ(shared(book, "A"), 0);
}

TEST(Overlap, IsMissingWithoutPumpOrTimes) {
  const Book book =
      book_with_samples("A,sample,P1,,2026-09-21T12:00\nB,blank,,,\n", "sample,kind,pump,started,stopped\n");
  EXPECT_TRUE(is_missing(shared(book, "A")));
  EXPECT_TRUE(is_missing(shared(book, "B")));
}

// A blank may be recorded with the pump and hours of the samples it went with; nothing was drawn through it.
TEST(Overlap, OfABlankIsNoOverlapOfTheSample) {
  const Book book = book_with_samples(
      "A,sample,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,blank,P1,2026-09-21T08:00,2026-09-21T12:00\n",
      "sample,kind,pump,started,stopped\n");
  EXPECT_EQ(shared(book, "A"), 0);
  EXPECT_TRUE(is_missing(shared(book, "B")));
}

TEST(Overlap, IgnoresASampleThatStopsBeforeItStarts) {
  const Book book = book_with_samples(
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,P1,2026-09-21T10:00,2026-09-21T09:00\n");
  EXPECT_EQ(shared(book, "A"), 0);
}

TEST(Overlap, OfASampleThatCannotHaveRunIsMissingAndHidesNoOther) {
  const Book book = book_with_samples(
      "A,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,P1,2026-09-21T11:35,\n"
      "C,,2026-09-21T08:00,2026-09-21T12:00\n"
      "D,P1,2026-09-21T11:00,2026-09-21T13:00\n");
  EXPECT_TRUE(is_missing(shared(book, "B")));
  EXPECT_TRUE(is_missing(shared(book, "C")));
  EXPECT_EQ(shared(book, "A"), 60);
}

}  // namespace
}  // namespace driftwarden::overlap_test

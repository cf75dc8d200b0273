// SPDX-License-Identifier: MIT
#include "assessment/told_by_sets.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "assessment/worked_budget.hpp"

namespace driftwarden::told_by_sets_test {
namespace {

// input: S1 read three times before and twice after by V1, and P1 twice by V2 without a sample.
BookText read_book() {
  BookText text;
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,sample,pump,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,,V1,1.996\n2026-09-21T07:31,pre,S1,,V1,2.000\n2026-09-21T07:32,pre,S1,,V1,2.004\n"
      "2026-09-21T16:10,post,S1,,V1,1.95\n2026-09-21T16:11,post,S1,,V1,1.97\n"
      "2026-09-22T07:30,pre,,P1,V2,2.00\n2026-09-22T07:31,pre,,P1,V2,2.02\n";
  return text;
}

struct Told {
  std::vector<SetScatter> scatters;  // of all stretches
  PumpDrifts uses;
};

Told told_by(const Book& book, unsigned threads = 1) {
  const AssessmentBasis basis(book, {}, {});
  ToldBySets by_sets = told_by_sets(basis, threads);
  Told all{{}, PumpDrifts(std::move(by_sets.uses), threads)};
  for (const auto& stretch : by_sets.scatters) all.scatters.insert(all.scatters.end(), stretch.begin(), stretch.end());
  return all;
}

Told told_by(const BookText& text, unsigned threads = 1) { return told_by(book_of(text), threads); }

constexpr Moment ever = std::numeric_limits<Moment>::max();

// derived: s / q is 0.002 of three, 0.02 / √2 / 1.96 and 0.02 / √2 / 2.01 of two; the flow fell from 2.00 to 1.96.
TEST(ToldBySets, TellOfTheirScatterAndOfThePumpsDrift) {
  const Book book = book_of(read_book());
  const Told told = told_by(book);
  ASSERT_EQ(told.scatters.size(), 3U);
  EXPECT_EQ(told.scatters[0].dof, 2U);
  EXPECT_NEAR(told.scatters[0].squares, 2 * 0.002 * 0.002, 1e-12);
  EXPECT_EQ(told.scatters[1].dof, 1U);
  EXPECT_NEAR(told.scatters[1].squares, 0.0002 / (1.96 * 1.96), 1e-12);
  EXPECT_NEAR(told.scatters[2].squares, 0.0002 / (2.01 * 2.01), 1e-12);
  EXPECT_EQ(told.scatters[0].last, 2U);
  EXPECT_EQ(told.scatters[1].last, 4U);
  EXPECT_EQ(told.scatters[2].last, 6U);
  ASSERT_EQ(told.uses.before(0, ever).uses, 1U);
  EXPECT_NEAR(told.uses.before(0, ever).s, 0.04 / 1.98, 1e-12);
}

// derived: without the one that can't be understood two of three are left, and of the pump's set one.
TEST(ToldBySets, TellOfTheOtherReadingsOfASetWhereOneCannotBeUnderstood) {
  BookText text = read_book();
  replace_all(text.readings, "2.004", "2.O04");
  replace_all(text.readings, "2.02", "2.O2");
  const Told told = told_by(text);
  EXPECT_EQ(told.uses.before(0, ever).uses, 0U);
  ASSERT_EQ(told.scatters.size(), 2U);
  EXPECT_EQ(told.scatters[0].dof, 1U);
  EXPECT_NEAR(told.scatters[0].squares, 0.000008 / (1.998 * 1.998), 1e-12);
}

TEST(ToldBySets, TellOfAPumpsSetOnceHoweverManySamplesLeanOnIt) {
  BookText text = read_book();
  text.samples =
      "sample,pump,started,stopped\nA,P1,2026-09-22T08:00,2026-09-22T12:00\n"
      "B,P1,2026-09-22T12:00,2026-09-22T16:00\n";
  text.readings = text.readings.substr(0, text.readings.find('\n') + 1) +
                  text.readings.substr(text.readings.find("2026-09-22T07:30"));
  EXPECT_EQ(told_by(text).scatters.size(), 1U);
}

TEST(ToldBySets, TellNothingOfScatterInAPartThatWasHandedIt) {
  Book book = book_of(read_book());
  book.files.pooled = {"pooled.csv"};
  EXPECT_TRUE(told_by(book).scatters.empty());
}

// input: more samples than are heard at a time.
TEST(ToldBySets, AreInOrderWithAnyNumberOfThreads) {
  BookText text = read_book();
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 0; i < 3000; ++i) {
    const std::string name = "S" + std::to_string(i);
    text.samples += name + ",P1,2026-09-21T08:00,2026-09-21T16:00\n";
    text.readings += "2026-09-21T07:30,pre," + name + ",V1,2\n2026-09-21T07:31,pre," + name + ",V1,2." +
                     std::to_string(i % 9 + 1) + "\n";
  }
  const Told one = told_by(text);
  const Told three = told_by(text, 3);
  ASSERT_EQ(one.scatters.size(), 3000U);
  ASSERT_EQ(three.scatters.size(), 3000U);
  for (std::size_t i = 0; i < 3000; ++i) EXPECT_EQ(one.scatters[i].squares, three.scatters[i].squares);
}

}  // namespace
}  // namespace driftwarden::told_by_sets_test

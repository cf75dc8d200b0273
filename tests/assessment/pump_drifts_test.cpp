// SPDX-License-Identifier: MIT
#include "assessment/pump_drifts.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/pump_history.hpp"

namespace driftwarden::pump_drifts_test {
namespace {

Moment morning(int day) { return (day_from({2026, 9, day}) * Moment{24} + 6) * 3600; }

struct Drifts {
  explicit Drifts(const BookText& text, unsigned threads = 1)
      : book(book_of(text)), basis(book, {}, {}, {}, threads), of(basis.pump_drifts) {}
  Book book;
  AssessmentBasis basis;
  const PumpDrifts& of;
};

// derived: -1 %, 2 % and -2 % of the mean of pre and post: s = sqrt(0.0009 / 3) = 1.7320508 %.
TEST(PumpDrifts, SpreadIsThatOfTheUsesClosedBefore) {
  const Drifts drifts(with_uses({-0.01, 0.02, -0.02}));
  EXPECT_EQ(drifts.of.before(0, morning(1)).uses, 0U);
  EXPECT_TRUE(is_missing(drifts.of.before(0, morning(1)).s));
  EXPECT_NEAR(drifts.of.before(0, morning(2)).s, 0.01, 1e-9);
  const DriftSpread all = drifts.of.before(0, morning(4));
  EXPECT_EQ(all.uses, 3U);
  EXPECT_NEAR(all.s, 0.017320508, 1e-9);
  EXPECT_EQ(drifts.of.before(1, morning(4)).uses, 0U);
  EXPECT_EQ(drifts.of.before(no_row, morning(4)).uses, 0U);
}

TEST(PumpDrifts, LaterUsesChangeNothingBefore) {
  const Drifts few(with_uses({-0.01, 0.02}));
  const Drifts many(with_uses({-0.01, 0.02, -0.15, 0.1}));
  EXPECT_EQ(few.of.before(0, morning(3)).s, many.of.before(0, morning(3)).s);
  EXPECT_EQ(many.of.before(0, morning(3)).uses, 2U);
}

TEST(PumpDrifts, LeaveOutWhereAFaultWasSeenAndWhatCantBeUnderstood) {
  BookText text = with_uses({-0.01, 0.02});
  text.samples.replace(text.samples.find("U1,P1,2026-09-01T08:00,2026-09-01T10:00,"), 40,
                       "U1,P1,2026-09-01T08:00,2026-09-01T10:00,yes");
  EXPECT_EQ(Drifts(text).of.before(0, morning(4)).uses, 1U);
  text = with_uses({-0.01, 0.02});
  text.readings += "2026-09-01T07:35,pre,U1,,V1,2.O\n";
  EXPECT_EQ(Drifts(text).of.before(0, morning(4)).uses, 1U);
}

// Both lean on the readings of the pump.
TEST(PumpDrifts, CountTwoSamplesWithinOneBracketOnce) {
  BookText text = with_uses({});
  text.samples += "A,P1,2026-09-01T08:00,2026-09-01T09:00,\nB,P1,2026-09-01T09:00,2026-09-01T10:00,\n";
  text.readings += "2026-09-01T07:30,pre,,P1,V1,2.00\n2026-09-01T10:10,post,,P1,V1,1.96\n";
  const DriftSpread spread = Drifts(text).of.before(0, morning(2));
  EXPECT_EQ(spread.uses, 1U);
  EXPECT_NEAR(spread.s, 0.04 / 1.98, 1e-12);
}

TEST(PumpDrifts, AreTheSameWithAnyNumberOfThreads) {
  const std::vector<double> drifts(20, -0.013);  // input: twenty like drifts
  const Drifts one(with_uses(drifts));
  const Drifts four(with_uses(drifts), 4);
  EXPECT_EQ(one.of.before(0, morning(15)).s, four.of.before(0, morning(15)).s);
  EXPECT_EQ(four.of.before(0, morning(30)).uses, 20U);
}

// derived: P2 as well, at the same hours: 1 % and 3 %, so s = sqrt(0.001 / 2) = 2.2360680 %.
TEST(PumpDrifts, AreOfEachPumpAlone) {
  BookText text = with_uses({-0.01, 0.02, -0.02});
  text.samples += "A,P2,2026-09-03T08:00,2026-09-03T10:00,\nB,P2,2026-09-04T08:00,2026-09-04T10:00,\n";
  text.readings +=
      "2026-09-03T07:30,pre,A,,V1,1.99\n2026-09-03T10:10,post,A,,V1,2.01\n"
      "2026-09-04T07:30,pre,B,,V1,2.03\n2026-09-04T10:10,post,B,,V1,1.97\n";
  const Drifts drifts(text);
  EXPECT_EQ(drifts.of.before(0, morning(9)).uses, 3U);
  EXPECT_NEAR(drifts.of.before(0, morning(9)).s, 0.017320508, 1e-9);
  EXPECT_EQ(drifts.of.before(1, morning(9)).uses, 2U);
  EXPECT_NEAR(drifts.of.before(1, morning(9)).s, 0.022360680, 1e-9);
  EXPECT_NEAR(drifts.of.before(1, morning(4)).s, 0.01, 1e-9);
  EXPECT_EQ(drifts.of.before(3, morning(9)).uses, 0U);  // the book's last instrument
}

TEST(PumpDrifts, LeaveOutASampleWhoseOwnRowCannotBeUnderstood) {
  BookText text = with_uses({-0.01, 0.02});
  text.samples.replace(text.samples.find("2026-09-01T10:00"), 16, "2026-09-01T1O:00");
  EXPECT_EQ(Drifts(text).of.before(0, morning(4)).uses, 1U);
}

TEST(PumpDrifts, LeaveOutABlank) {
  BookText text = with_uses({-0.01, 0.02});
  text.samples =
      "sample,kind,pump,started,stopped,fault\nU1,blank,P1,2026-09-01T08:00,2026-09-01T10:00,\n"
      "U2,sample,P1,2026-09-02T08:00,2026-09-02T10:00,\n";
  EXPECT_EQ(Drifts(text).of.before(0, morning(4)).uses, 1U);
}

// A was read by itself before: of what two samples of one bracket tell, the larger counts, whichever stands first.
TEST(PumpDrifts, OfOneBracketAreTheLargest) {
  for (const char* own : {"A", "B"}) {
    BookText text = with_uses({});
    text.samples += "A,P1,2026-09-01T08:00,2026-09-01T09:00,\nB,P1,2026-09-01T08:00,2026-09-01T09:00,\n";
    text.readings += "2026-09-01T07:30,pre,,P1,V1,2.00\n2026-09-01T10:10,post,,P1,V1,1.96\n2026-09-01T07:40,pre," +
                     std::string(own) + ",,V1,2.10\n";
    const DriftSpread spread = Drifts(text).of.before(0, morning(2));
    EXPECT_EQ(spread.uses, 1U) << own;
    EXPECT_NEAR(spread.s, 0.14 / 2.03, 1e-12) << own;
  }
}

// own input: uses that crowd at the end, at the beginning, or lie evenly; what was closed before a moment is counted.
TEST(PumpDrifts, CountUsesHoweverTheyLieInTime) {
  for (const auto& closed_at : {+[](Moment i) { return i * i * i; }, +[](Moment i) { return 1000 * i; },
                                +[](Moment i) { return 1'000'000 - (100 - i) * (100 - i) * (100 - i); }}) {
    SampleTable samples;
    samples.pump.reserve(100);
    for (int i = 0; i < 100; ++i) samples.pump.push_back(1);
    PumpUses told(samples, 2);
    for (Moment i = 0; i < 100; ++i) told.add(1, {closed_at(i), 0.01});
    const PumpDrifts drifts(std::move(told), 1);
    for (Moment i = 0; i < 100; ++i) {
      EXPECT_EQ(drifts.before(1, closed_at(i)).uses, i);
      EXPECT_EQ(drifts.before(1, closed_at(i) + 1).uses, i + 1);
    }
    EXPECT_EQ(drifts.before(1, no_moment).uses, 0U);
    EXPECT_EQ(drifts.before(0, closed_at(99) + 1).uses, 0U);
  }
}

}  // namespace
}  // namespace driftwarden::pump_drifts_test

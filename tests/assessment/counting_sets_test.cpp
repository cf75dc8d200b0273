// SPDX-License-Identifier: MIT
// Which sets of a sample count: its own, and those of its pump.
#include <gtest/gtest.h>

#include "assessment/assessed_book.hpp"

namespace driftwarden::counting_sets_test {
namespace {

// derived: flows and minutes are those of the readings.

TEST(CountingSets, LeansOnTheBracketOfItsPump) {
  AssessedBook book(with_readings("2026-09-21T07:30,pre,,P1,V1,2.0,,\n2026-09-21T16:10,post,,P1,V1,1.9,,\n"));
  EXPECT_NEAR(book.of("S1").drift, -0.05, exact_in_decimals);
  EXPECT_EQ(book.of("S1").rows, (std::vector<Row>{0, 1}));
}

TEST(CountingSets, TwoSamplesInOneBracketLeanOnBothItsSets) {
  BookText text = with_readings("2026-09-21T07:30,pre,,P1,V1,2.0,,\n2026-09-21T18:00,post,,P1,V1,1.9,,\n");
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "S2,P1,2026-09-21T12:30,2026-09-21T17:00\n";
  AssessedBook book(text);
  for (const char* sample : {"S1", "S2"}) {
    EXPECT_EQ(book.of(sample).pre_l_min, 2.0) << sample;
    EXPECT_EQ(book.of(sample).post_l_min, 1.9) << sample;
  }
  EXPECT_NEAR(book.of("S1").volume_l + book.of("S2").volume_l, (240 + 270) * 1.95, exact_in_decimals);
}

TEST(CountingSets, TakesTheStagesItHasNoReadingsOfFromTheBracket) {
  AssessedBook book(
      with_readings("2026-09-21T07:00,pre,S1,,V1,2.0,,\n"
                    "2026-09-21T07:30,pre,,P1,V1,9.0,,\n"
                    "2026-09-21T16:10,post,,P1,V1,1.9,,\n"));
  EXPECT_EQ(book.of("S1").pre_l_min, 2.0);
  EXPECT_EQ(book.of("S1").post_l_min, 1.9);
}

TEST(CountingSets, HasNoPostWhereThePumpWasSetAgainInBetween) {
  AssessedBook book(
      with_readings("2026-09-21T07:30,pre,,P1,V1,2.0,,\n"
                    "2026-09-21T16:05,pre,,P1,V1,2.0,,\n"
                    "2026-09-21T16:10,post,,P1,V1,1.9,,\n"));
  EXPECT_EQ(book.of("S1").post_set(), nullptr);
  EXPECT_TRUE(is_missing(book.of("S1").drift));
  EXPECT_TRUE(is_missing(book.of("S1").volume_l));
}

TEST(CountingSets, OfSeveralOwnSetsTheNearestOutsideTheSampleCount) {
  AssessedBook book(
      with_readings("2026-09-21T06:00,pre,S1,,V1,1.0,,\n"
                    "2026-09-21T07:30,pre,S1,,V1,2.0,,\n"
                    "2026-09-21T09:00,pre,S1,,V1,3.0,,\n"
                    "2026-09-21T15:00,post,S1,,V1,4.0,,\n"
                    "2026-09-21T16:10,post,S1,,V1,1.9,,\n"
                    "2026-09-21T18:00,post,S1,,V1,5.0,,\n"));
  EXPECT_EQ(book.of("S1").pre_l_min, 2.0);
  EXPECT_EQ(book.of("S1").post_l_min, 1.9);
}

TEST(CountingSets, OwnSetsThatTouchTheSampleStandOutsideIt) {
  AssessedBook book(
      with_readings("2026-09-21T07:00,pre,S1,,V1,1.0,,\n"
                    "2026-09-21T08:00,pre,S1,,V1,2.0,,\n"
                    "2026-09-21T15:00,post,S1,,V1,4.0,,\n"
                    "2026-09-21T16:00,post,S1,,V1,1.9,,\n"));
  EXPECT_EQ(book.of("S1").pre_l_min, 2.0);
  EXPECT_EQ(book.of("S1").post_l_min, 1.9);
}

TEST(CountingSets, OwnSetsCountAlsoOnTheWrongSideOfItsTimesAndTheAgeIsNegative) {
  AssessedBook book(with_readings("2026-09-21T08:05,pre,S1,,V1,2.0,,\n2026-09-21T15:55,post,S1,,V1,1.9,,\n"));
  EXPECT_EQ(book.of("S1").pre_l_min, 2.0);
  EXPECT_EQ(book.of("S1").pre_age_min, -5);
  EXPECT_EQ(book.of("S1").post_l_min, 1.9);
  EXPECT_EQ(book.of("S1").post_age_min, -5);
}

TEST(CountingSets, ASetThatIsStruckOutGivesWayToOneThatIsNot) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-09-21T05:00,pre,S1,V1,2.0,,\n2026-09-21T07:30,pre,S1,V1,2.2,yes,tube bent\n"
      "2026-09-21T16:10,post,S1,V1,1.5,yes,tube bent\n2026-09-21T18:00,post,S1,V1,1.9,,\n";
  AssessedBook book(text);
  EXPECT_EQ(book.of("S1").pre_l_min, 2.0);
  EXPECT_EQ(book.of("S1").post_l_min, 1.9);
}

// A sound set on the wrong side of the sample says nothing that a struck-out one on the right side should have said.
TEST(CountingSets, ASetThatIsStruckOutDoesNotGiveWayToOneFromBehindTheSample) {
  const std::string heading = "taken,stage,sample,calibrator,reading [L/min],void,note\n";
  BookText text;
  text.readings = heading +
                  "2026-09-21T07:30,pre,S1,V1,2.0,,\n2026-09-21T07:50,post,S1,V1,2.0,,\n"
                  "2026-09-21T16:10,post,S1,V1,1.5,yes,tube bent\n";
  EXPECT_TRUE(is_missing(AssessedBook(text).of("S1").post_l_min));
  text.readings = heading +
                  "2026-09-21T07:30,pre,S1,V1,2.0,yes,tube bent\n2026-09-21T16:30,pre,S1,V1,1.9,,\n"
                  "2026-09-21T16:10,post,S1,V1,1.9,,\n";
  EXPECT_TRUE(is_missing(AssessedBook(text).of("S1").pre_l_min));
  // On that side, the sound one counts whichever stands nearer.
  text.readings = heading +
                  "2026-09-21T05:30,pre,S1,V1,2.0,,\n2026-09-21T07:00,pre,S1,V1,2.2,yes,tube bent\n"
                  "2026-09-21T16:10,post,S1,V1,1.9,,\n2026-09-21T18:00,post,S1,V1,1.5,yes,tube bent\n";
  EXPECT_EQ(AssessedBook(text).of("S1").pre_l_min, 2.0);
  EXPECT_EQ(AssessedBook(text).of("S1").post_l_min, 1.9);
}

// Minutes from the set that counts; of post sets that are all too early the first, of pre sets that are too late the
// last.
TEST(CountingSets, AmongSetsOfOneKindGoesByTheirTimes) {
  const auto ages = [](const std::string& rows) {
    BookText text;
    text.readings = "taken,stage,sample,calibrator,reading [L/min],void,note\n" + rows;
    AssessedBook book(text);
    const SampleAssessment& s1 = book.of("S1");
    return std::pair(s1.pre_age_min, s1.post_age_min);
  };
  const std::string is_void = ",yes,tube bent\n";
  EXPECT_EQ(ages("2026-09-21T05:00,pre,S1,V1,2" + is_void + "2026-09-21T07:30,pre,S1,V1,2" + is_void +
                 "2026-09-21T16:10,post,S1,V1,2" + is_void + "2026-09-21T18:00,post,S1,V1,2" + is_void),
            std::pair(30.0, 10.0));
  EXPECT_EQ(ages("2026-09-21T09:00,pre,S1,V1,2,,\n2026-09-21T10:00,pre,S1,V1,2,,\n"
                 "2026-09-21T14:00,post,S1,V1,2,,\n2026-09-21T15:00,post,S1,V1,2,,\n"),
            std::pair(-120.0, -120.0));
  EXPECT_EQ(ages("2026-09-21T09:00,pre,S1,V1,2" + is_void + "2026-09-21T10:00,pre,S1,V1,2,,\n" +
                 "2026-09-21T14:00,post,S1,V1,2,,\n2026-09-21T15:00,post,S1,V1,2" + is_void),
            std::pair(-120.0, -120.0));
}

TEST(CountingSets, TakesNothingFromItsPumpWithoutBothOfItsTimes) {
  for (const char* times : {",2026-09-21T16:00", "2026-09-21T08:00,"}) {
    BookText text = with_readings("2026-09-21T07:30,pre,,P1,V1,2.0,,\n2026-09-21T16:10,post,,P1,V1,1.9,,\n");
    text.samples = std::string("sample,pump,started,stopped\nS1,P1,") + times + "\n";
    EXPECT_TRUE(AssessedBook(text).of("S1").sets.empty()) << times;
  }
}

TEST(CountingSets, HasTheFieldSetsAndTheStruckOutOnesOfItsBracket) {
  BookText text;
  text.readings =
      "taken,stage,sample,pump,calibrator,reading [L/min],void,note\n"
      "2026-09-21T07:30,pre,,P1,V1,2.0,,\n2026-09-21T12:00,field,,P1,V1,1.8,,\n"
      "2026-09-21T16:10,post,,P1,V1,1.5,yes,tube bent\n2026-09-21T18:00,post,,P1,V1,1.9,,\n";
  AssessedBook book(text);
  const SampleAssessment& s1 = book.of("S1");
  ASSERT_EQ(s1.sets.size(), 4U);
  EXPECT_EQ(s1.field_count(), 1U);
  EXPECT_EQ(s1.post_l_min, 1.9);
  EXPECT_NEAR(s1.field_change_l_min, -0.2, exact_in_decimals);
  EXPECT_EQ(s1.rows.size(), 4U);
}

// Two readings of its own stand before those that come from the pump.
TEST(CountingSets, KnowsTheReadingsOfASetFromItsPump) {
  AssessedBook book(
      with_readings("2026-09-21T07:30,pre,S1,,V1,2.0,,\n2026-09-21T07:31,pre,S1,,V1,2.0,,\n"
                    "2026-09-21T16:10,post,,P1,V1,1.9,,\n"));
  const SampleAssessment& s1 = book.of("S1");
  ASSERT_EQ(s1.rows_of(*s1.post_set()).size(), 1U);
  EXPECT_EQ(s1.rows_of(*s1.post_set())[0], 2U);
}

}  // namespace
}  // namespace driftwarden::counting_sets_test

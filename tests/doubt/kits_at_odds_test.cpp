// SPDX-License-Identifier: MIT
#include "doubt/kits_at_odds.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"
#include "doubt/doubtful.hpp"
#include "support/book_text.hpp"

namespace driftwarden::kits_at_odds_test {
namespace {

const std::string wrong_kit =
    "a kit, a day or the instrument is wrong; or the day it came back was not written down [doubt/two-kits]\n";
const std::string wrong_pump =
    "the day or the pump is wrong; or it went out, and issues.csv does not say so [doubt/elsewhere]\n";
const std::string handed_on =
    "a day or an instrument is wrong; or somebody handed it on, and issues.csv does not say so [doubt/elsewhere]\n";

// S1 is drawn with P1 and read three times with V1, on 2026-09-21. Invented.
std::string doubts(const std::string& issues, std::optional<Day> as_of = {}) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T07:31,pre,S1,V1,2.001\n2026-09-21T07:32,pre,S1,V1,2.003\n";
  text.issues = "kit,instrument,out,to,back,missing\n" + issues;
  return told(doubts_of(book_of(text), {}, as_of));
}

TEST(TwoKits, AreNoneWhereOneTripEndsOnTheDayTheNextBegins) {
  EXPECT_EQ(doubts("K-1,P2,2026-09-01,,2026-09-04,\nK-2,P2,2026-09-04,,2026-09-08,\nK-3,P2,2026-09-08,,2026-09-08,\n"
                   "K-4,P2,2026-09-08,,,\n"),
            "");
}

TEST(TwoKits, AreToldOfAnInstrumentThatIsInTwo) {
  EXPECT_EQ(doubts("K-1,P2,2026-09-01,,2026-09-05,\nK-2,P2,2026-09-04,,2026-09-08,\n"),
            "issues.csv:3: remark: P2 went out in kit K-2 on 2026-09-04, while it was out in kit K-1 since 2026-09-01 "
            "and until 2026-09-05 (issues.csv:2); " +
                wrong_kit);
  EXPECT_EQ(doubts("K-1,P2,2026-09-01,,,\nK-2,P2,,,,\n"),
            "issues.csv:3: remark: P2 is being put into kit K-2, while it was out in kit K-1 since 2026-09-01 "
            "(issues.csv:2); " +
                wrong_kit);
  EXPECT_EQ(doubts("K-1,P2,2026-09-04,,,\nK-1,P2,2026-09-04,,,\n"),
            "issues.csv:3: remark: P2 went out in kit K-1 on 2026-09-04, while it was out in kit K-1 since 2026-09-04 "
            "(issues.csv:2); " +
                wrong_kit);
  EXPECT_EQ(doubts("K-1,P2,,,,\nK-2,P2,,,,\n"),
            "issues.csv:3: remark: P2 is being put into kit K-2 and into kit K-1 (issues.csv:2); " + wrong_kit);
}

TEST(TwoKits, AreNoneWhereItIsMissingFromOne) {
  EXPECT_EQ(doubts("K-1,P2,2026-09-01,,,yes\nK-2,P2,2026-09-04,,,\n"), "") << "it has turned up";
  EXPECT_EQ(doubts("K-1,P2,2026-09-01,,,yes\nK-2,P2,,,,\n"), "") << "it is meant to go";
  EXPECT_EQ(doubts("K-1,P2,2026-09-01,,,\nK-2,P2,,,,yes\n"), "") << "it is not there to be put in";
}

TEST(TwoKits, AreToldOnlyOnceTheyAreKnown) {
  const std::string issues = "K-1,P2,2026-09-01,,,\nK-2,P2,2026-09-04,,2026-09-08,\n";
  EXPECT_EQ(doubts(issues, day_from({2026, 9, 3})), "");
  EXPECT_EQ(doubts(issues, day_from({2026, 9, 4})),
            "issues.csv:3: remark: P2 went out in kit K-2 on 2026-09-04, while it was out in kit K-1 since 2026-09-01 "
            "(issues.csv:2); " +
                wrong_kit);
}

// S1 is of 2026-09-21.
TEST(KitDays, AreToldWhereTheirYearCannotBe) {
  const std::string see =
      "see whether the year is right: a kit of another year is missed on the lists [doubt/kit-day]\n";
  const std::string far = " lies more than ten years from all that is on record; " + see;
  EXPECT_EQ(doubts("K-1,P2,2206-09-04,,,\n"), "issues.csv:2: remark: of P2 in kit K-1: 2206-09-04" + far);
  EXPECT_EQ(doubts("K-1,P2,2206-09-04,,,\n", day_from({2026, 9, 30})),
            "issues.csv:2: remark: of P2 in kit K-1: 2206-09-04" + far);
  EXPECT_EQ(doubts("K-1,P2,1926-09-04,,1926-09-05,\n"), "issues.csv:2: remark: of P2 in kit K-1: 1926-09-04" + far);
  EXPECT_EQ(
      doubts("K-1,P2,2026-09-04,,2027-09-06,\n"),
      "issues.csv:2: remark: of P2 in kit K-1: it is out from 2026-09-04 to 2027-09-06, for more than a year; " + see);
  EXPECT_EQ(doubts("K-1,P2,2026-09-04,,2027-09-05,\n"), "") << "lent for a year";
  EXPECT_EQ(doubts("K-1,P2,2026-09-04,,2027-09-06,\n", day_from({2026, 9, 3})), "") << "it is not yet known";
}

std::string doubts_of_rows(const std::string& rows, std::optional<Day> as_of = {}) {
  BookText text;
  text.issues = "kit,kind of kit,instrument,item,out,to,due back,back,missing\n" + rows;
  return told(doubts_of(book_of(text), {}, as_of));
}

TEST(KitRows, AreToldWhereTheyContradictEachOther) {
  const std::string wrong_row =
      "; correct the row that is wrong; or the kit or the day it went out is another [doubt/kit-rows]\n";
  EXPECT_EQ(doubts_of_rows("K-1,dust,P2,,2026-09-01,north crew,2026-09-05,,\nK-1,,,hose,2026-09-01,,,,\n"
                           "K-1,dust,V2,,2026-09-01,north crew,2026-09-05,,\n"),
            "");
  EXPECT_EQ(
      doubts_of_rows("K-1,,,hose,2026-09-01,,,,\nK-1,dust,P2,,2026-09-01,north crew,2026-09-05,,\n"
                     "K-1,noise,V2,,2026-09-01,south crew,2026-09-06,2026-09-04,\n"
                     "K-1,dust,,lamp,2026-09-01,south crew,,2026-09-03,\n"),
      "issues.csv:4: remark: by this row kit K-1, which went out on 2026-09-01, is of the kind 'noise', and by "
      "issues.csv:3 'dust'" +
          wrong_row +
          "issues.csv:4: remark: by this row kit K-1, which went out on 2026-09-01, is with 'south crew', and by "
          "issues.csv:3 'north crew'" +
          wrong_row +
          "issues.csv:4: remark: by this row kit K-1, which went out on 2026-09-01, is due back on '2026-09-06', "
          "and by issues.csv:3 '2026-09-05'" +
          wrong_row +
          "issues.csv:5: remark: by this row kit K-1, which went out on 2026-09-01, came back on '2026-09-03', and "
          "by issues.csv:4 '2026-09-04'" +
          wrong_row)
      << "each once";
  EXPECT_EQ(doubts_of_rows("K-1,,P2,,,north crew,,,\nK-1,,V2,,,south crew,,,\n"),
            "issues.csv:3: remark: by this row kit K-1, which is being put together, is with 'south crew', and by "
            "issues.csv:2 'north crew'" +
                wrong_row);
  EXPECT_EQ(doubts_of_rows("K-1,,P2,,2026-09-01,north crew,,2026-09-02,\nK-1,,P2,,2026-09-08,south crew,,,\n"), "")
      << "another trip";
}

TEST(OutAgain, IsToldOfAKitOfWhichSomethingHasNotComeBack) {
  const std::string not_back =
      "; write down the day it came back, or that it is missing; or the kit or a day is wrong [doubt/out-again]\n";
  const std::string first = "K-1,,P2,,2026-09-01,,,,\nK-1,,,hose,2026-09-01,,,,\nK-1,,V2,,2026-09-01,,,2026-09-04,\n";
  EXPECT_EQ(
      doubts_of_rows(first + "K-1,,V1,,2026-09-08,,,,\n"),
      "issues.csv:5: remark: kit K-1 went out on 2026-09-08, and of what went out in it on 2026-09-01 is not back: "
      "P2 (issues.csv:2), hose (issues.csv:3)" +
          not_back);
  EXPECT_EQ(
      doubts_of_rows(first + "K-1,,V1,,,,,,\n"),
      "issues.csv:5: remark: kit K-1 is being put together, and of what went out in it on 2026-09-01 is not back: "
      "P2 (issues.csv:2), hose (issues.csv:3)" +
          not_back);
  EXPECT_EQ(doubts_of_rows(first + "K-1,,V1,,2026-09-08,,,,\n", day_from({2026, 9, 7})), "") << "it has not gone yet";
  EXPECT_EQ(doubts_of_rows(first + "K-2,,V1,,2026-09-08,,,,\n"), "") << "another kit";
  EXPECT_EQ(doubts_of_rows("K-1,,,hose,2026-09-01,,,2026-09-08,\nK-1,,,hose,2026-09-08,,,,\n"), "")
      << "it came back that day";
  EXPECT_EQ(doubts_of_rows("K-1,,,hose,2026-09-01,,,2026-09-04,yes\nK-1,,,hose,2026-09-08,,,,\n"), "")
      << "it is missing";
  const std::string both = doubts_of_rows("K-1,,P2,,2026-09-01,,,,\nK-1,,P2,,2026-09-08,,,,\n");
  EXPECT_NE(both.find("[doubt/two-kits]"), std::string::npos) << both;
  EXPECT_EQ(both.find("[doubt/out-again]"), std::string::npos) << "said once";
}

TEST(Elsewhere, IsToldOfASampleDrawnWithAPumpInTheStore) {
  EXPECT_EQ(doubts("K-1,P1,2026-09-01,,2026-09-20,\n"),
            "samples.csv:2: remark: S1 is drawn with P1 on 2026-09-21, when P1 was back from kit K-1 since 2026-09-20 "
            "(issues.csv:2); " +
                wrong_pump);
  EXPECT_EQ(doubts("K-1,P1,2026-09-01,,2026-09-20,yes\n"),
            "samples.csv:2: remark: S1 is drawn with P1 on 2026-09-21, when P1 was missing since kit K-1 came back on "
            "2026-09-20 (issues.csv:2); " +
                wrong_pump);
  EXPECT_EQ(doubts("K-1,P1,2026-09-01,,,yes\n"), "") << "nobody says since when it is missing";
  EXPECT_EQ(doubts("K-1,P1,2026-09-01,,2026-09-21,\n"), "") << "it came back that day";
  EXPECT_EQ(doubts("K-1,P1,2026-09-21,,,\n"), "") << "it went out that day";
  EXPECT_EQ(doubts("K-1,P1,2026-09-25,,,\n"), "") << "where it was before its first kit nobody knows";
  EXPECT_EQ(doubts("K-1,P1,2026-09-01,,2026-09-20,\n", day_from({2026, 9, 19})), "") << "neither has come";
}

TEST(Elsewhere, IsToldOfAPumpAndItsCalibratorWithTwoCrews) {
  EXPECT_EQ(
      doubts("K-1,P1,2026-09-20,north crew,,\nK-2,V1,2026-09-20,south crew,,\n"),
      "readings.csv:2: remark: P1 is read with V1 for S1 on 2026-09-21, when P1 was out with north crew (kit K-1) "
      "(issues.csv:2) and V1 was out with south crew (kit K-2) (issues.csv:3); " +
          handed_on);
  EXPECT_EQ(doubts("K-1,P1,2026-09-20,north crew,,\nK-2,V1,2026-09-20,north crew,,\n"), "") << "one crew, two kits";
  EXPECT_EQ(doubts("K-1,P1,2026-09-20,,,\nK-1,V1,2026-09-20,,,\n"), "") << "one kit";
  EXPECT_EQ(doubts("K-1,P1,2026-09-20,north crew,,\n"), "") << "where the calibrator is nobody knows";
  EXPECT_EQ(
      doubts("K-1,P1,2026-09-20,north crew,,\nK-2,V1,2026-09-01,north crew,2026-09-10,\n"),
      "readings.csv:2: remark: P1 is read with V1 for S1 on 2026-09-21, when P1 was out with north crew (kit K-1) "
      "(issues.csv:2) and V1 was back from kit K-2 since 2026-09-10 (issues.csv:3); " +
          handed_on);
  EXPECT_EQ(doubts("K-1,P1,2026-09-20,north crew,,\nK-2,V1,2026-09-01,north crew,2026-09-10,\nK-1,V1,2026-09-21,,,\n")
                .find("[doubt/elsewhere]"),
            std::string::npos)
      << "it went out in the same kit that day";
}

}  // namespace
}  // namespace driftwarden::kits_at_odds_test

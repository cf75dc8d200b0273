// SPDX-License-Identifier: MIT
#include "doubt/times_at_odds.hpp"

#include <gtest/gtest.h>

#include "doubt/honest_book.hpp"

namespace driftwarden::times_at_odds_test {
namespace {

// input: flows and times.

// Sets of V1 or V2 before samples on two pumps, in one morning; invented.
std::vector<std::string> at_odds(const std::vector<std::string>& on_p1, const std::vector<std::string>& on_p2) {
  BookText text;
  text.certificates.clear();
  text.samples =
      "sample,pump,started,stopped\nS1,P1,2026-09-21T10:00,2026-09-21T16:00\n"
      "S2,P2,2026-09-21T10:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  double flow = 2;
  for (const auto& [rows, sample] : {std::pair(&on_p1, "S1"), std::pair(&on_p2, "S2")}) {
    for (const std::string& row : *rows) {
      text.readings += "2026-09-21T" + row.substr(0, 5) + ",pre," + sample + row.substr(5) + "," + shown(flow) + "\n";
      flow += 0.01;
    }
  }
  std::vector<std::string> told;
  for (const Diagnostic& doubt : doubts_of(book_of(text))) told.push_back(doubt.message);
  return told;
}

TEST(TwoPlaces, AreOneAfterTheOtherWhereOneSetEndsAsTheNextBegins) {
  EXPECT_EQ(at_odds({"07:30,V1", "07:34,V1"}, {"07:34,V1", "07:38,V1"}), Ids());
  EXPECT_EQ(at_odds({"07:30,V1", "07:34,V1"}, {"07:33,V1", "07:38,V1"}),
            Ids{"V1 is read for S2 before it is done with S1 (readings.csv:2)"});
  EXPECT_EQ(at_odds({"07:30,V1", "07:34,V1"}, {"07:30,V1"}), Ids()) << "it may have come first in its minute";
  EXPECT_EQ(at_odds({"07:30,V1", "07:34,V1"}, {"07:33,V2", "07:38,V2"}), Ids()) << "two calibrators";
}

TEST(TwoPlaces, AreToldOfACalibratorInTwoPlaces) {
  BookText text = honest_book(1);
  text.samples += "X,P2,2026-09-05T08:00,2026-09-05T16:00\nY,P1,2026-09-06T08:00,2026-09-06T16:00\n";
  text.readings +=
      "2026-09-05T07:32,pre,X,V1,2.001,84.5\n2026-09-05T07:36,pre,X,V1,2.004,84.5\n"
      "2026-09-06T07:34,pre,Y,V1,2.001,84.5\n2026-09-06T07:36,pre,Y,V1,2.004,84.5\n";  // after the other was done
  // D5 is read on P2, too; D4 and D6 on P1.
  EXPECT_EQ(ids(text), Ids());
  text.samples.replace(text.samples.find("X,P2"), 4, "X,P1");
  EXPECT_EQ(ids(text), Ids{"doubt/two-places"});
}

// S1 runs on P1 from 08:00 to 12:00 and is read until 12:05. S2 follows on the same pump, S3 on another. Invented data.
BookText two_runs(const std::string& warm_up, const std::string& pre_taken, const std::string& second_pump = "P1") {
  BookText text;
  text.samples = "sample,pump,started,stopped,warm-up [min]\nS1,P1,2026-09-21T08:00,2026-09-21T12:00,15\nS2," +
                 second_pump + ",2026-09-21T12:45,2026-09-21T16:00," + warm_up + "\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T12:04,post,S1,V1,1.990\n2026-09-21T12:05,post,S1,V1,1.991\n2026-09-21T" +
      pre_taken + ",pre,S2,V1,2.001\n2026-09-21T16:10,post,S2,V1,1.980\n";
  return text;
}

TEST(WarmUp, ThatReachesBackIntoAnotherUseOfThePumpIsTold) {
  EXPECT_EQ(ids(two_runs("15", "12:20")), Ids());  // just so long after the last reading
  EXPECT_EQ(ids(two_runs("15", "12:19:59")), Ids{"doubt/warm-up"});
  const Diagnostics doubts = doubts_of(book_of(two_runs("15", "12:15")));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(
      to_text(doubts[0]),
      "readings.csv:5: remark: before its flow was read, P1 had warmed up for 15 min, says S2; but 10 min before it "
      "was still in use for S1 (readings.csv:3); one of the times, or the warm-up, is another; or the pump ran on "
      "from one sample to the next, and was warm [doubt/warm-up]");
}

TEST(WarmUp, OfAReadingInTheVeryMinuteIsNotTold) {
  EXPECT_EQ(ids(two_runs("", "12:05")), Ids());
  const Diagnostics doubts = doubts_of(book_of(two_runs("15", "12:05")));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_NE(doubts[0].message.find("but 0 min before it was still in use for S1"), std::string::npos)
      << doubts[0].message;
}

// A sample's own run is no other use of its pump, even where the set before it was read too late.
TEST(WarmUp, IsNotHeldAgainstTheSampleItself) { EXPECT_EQ(ids(two_runs("15", "12:50")), Ids()); }

std::string warm_up_told(const std::string& samples, const std::string& readings) {
  BookText text;
  text.samples = "sample,pump,started,stopped,warm-up [min]\n" + samples;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n" + readings;
  std::string told;
  for (const Diagnostic& doubt : doubts_of(book_of(text))) {
    if (doubt.id == "doubt/warm-up") told += doubt.message.substr(doubt.message.find("in use for"));
  }
  return told;
}

// Of all uses that began before, the one that ends last counts; of each pump its own.
TEST(WarmUp, IsHeldAgainstTheUseThatEndsLast) {
  const std::string pre = "2026-09-21T12:00,pre,S3,V1,2.001\n";
  const std::string on_p2 = "S3,P2,2026-09-21T13:00,2026-09-21T14:00,15\n";
  EXPECT_EQ(
      warm_up_told("S1,P2,2026-09-21T08:00,2026-09-21T16:00,\nS2,P2,2026-09-21T08:30,2026-09-21T09:00,\n" + on_p2, pre),
      "in use for S1 (samples.csv:2)");
  EXPECT_EQ(
      warm_up_told("S1,P1,2026-09-21T08:00,2026-09-21T16:00,\nS2,P2,2026-09-21T08:30,2026-09-21T11:50,\n" + on_p2, pre),
      "in use for S2 (samples.csv:3)");
}

TEST(WarmUp, IsNotHeldAgainstARunThatNobodyKnowsTheBeginOf) {
  EXPECT_EQ(warm_up_told("S1,P1,,2026-09-21T12:00,\nS3,P1,2026-09-21T13:00,2026-09-21T14:00,15\n",
                         "2026-09-21T12:10,pre,S3,V1,2.001\n"),
            "");
}

TEST(WarmUp, OfSamplesWithoutAPumpIsOfNoPump) {
  EXPECT_EQ(warm_up_told("S1,,2026-09-21T08:00,2026-09-21T12:00,\nS3,,2026-09-21T13:00,2026-09-21T14:00,15\n",
                         "2026-09-21T12:05,post,S1,V1,2.001\n2026-09-21T12:10,pre,S3,V1,2.001\n"),
            "");
}

TEST(WarmUp, IsHeldAgainstTheRunWhereNoSetWasReadAfterIt) {
  BookText text = two_runs("15", "12:10");
  text.readings.erase(text.readings.find("2026-09-21T12:04"), 2 * 34);
  ASSERT_EQ(text.readings.find("post,S1"), std::string::npos);
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_NE(doubts[0].message.find("10 min before it was still in use for S1 (samples.csv:2)"), std::string::npos)
      << doubts[0].message;
}

TEST(WarmUp, OnAnotherPumpIsNobodysBusiness) { EXPECT_EQ(ids(two_runs("15", "12:15", "P2")), Ids()); }

TEST(WarmUp, ThatIsNotStatedIsTakenAsNone) {
  EXPECT_EQ(ids(two_runs("", "12:06")), Ids());
  const Diagnostics doubts = doubts_of(book_of(two_runs("", "11:59")));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_NE(doubts[0].message.find("the flow of P1 is read before S2, while it is still in use for S1"),
            std::string::npos)
      << doubts[0].message;
}

TEST(WarmUp, IsNotHeldAgainstABlank) {
  BookText text = two_runs("15", "12:15");
  text.samples =
      "sample,kind,pump,started,stopped,warm-up "
      "[min]\nS1,blank,P1,2026-09-21T08:00,2026-09-21T12:00,\nS2,sample,P1,2026-09-21T12:45,2026-09-21T16:00,15\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T12:10,pre,S2,V1,2.001\n";
  EXPECT_EQ(ids(text), Ids());
}

// Never by chance: honest days, each warm-up inside the time since the pump was last in use.
TEST(WarmUp, IsNeverTooLongInAnHonestBook) {
  test::RandomNumbers random(7);
  for (int book = 0; book < 100; ++book) {
    const auto since = static_cast<int>(1 + 29 * random.uniform());
    const auto warm_up = static_cast<int>(since * random.uniform());
    EXPECT_EQ(ids(two_runs(std::to_string(warm_up), "12:" + two_digits(5 + since))), Ids()) << since << ' ' << warm_up;
  }
}

}  // namespace
}  // namespace driftwarden::times_at_odds_test

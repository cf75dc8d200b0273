// SPDX-License-Identifier: MIT
#include "verdict/times_at_odds.hpp"

#include <gtest/gtest.h>

#include "verdict/honest_book.hpp"

namespace driftwarden::times_at_odds_test {
namespace {

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

using Ids = std::vector<std::string>;

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

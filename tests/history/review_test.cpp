// SPDX-License-Identifier: MIT
#include "history/review.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::review_test {
namespace {

using Texts = std::vector<std::string>;

// Three samples a week apart, the second with a blank; drifts -2.5 %, 0 and 0.
BookText three_weeks() {
  BookText text;
  text.samples =
      "sample,batch,kind,pump,started,stopped\n"
      "S1,A,sample,P1,2026-09-14T08:00,2026-09-14T16:00\n"
      "S2,B,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "BL,B,blank,,,\n"
      "S3,C,sample,P1,2026-09-28T08:00,2026-09-28T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-14T07:30,pre,S1,V1,2.000\n2026-09-14T16:10,post,S1,V1,1.950\n"
      "2026-09-21T07:30,pre,S2,V1,2.000\n2026-09-21T16:10,post,S2,V1,2.000\n"
      "2026-09-28T07:30,pre,S3,V1,2.000\n2026-09-28T16:10,post,S3,V1,2.000\n";
  return text;
}

TEST(ReviewPeriod, IsTheFullDaysBeforeAndTheDayItself) {
  const ReviewPeriod period = review_period(day("2026-09-28"), 7);
  EXPECT_TRUE(period.holds(day("2026-09-28")));
  EXPECT_TRUE(period.holds(day("2026-09-21")));
  EXPECT_FALSE(period.holds(day("2026-09-20")));
  EXPECT_FALSE(period.holds(day("2026-09-29")));
}

TEST(Review, PutsSamplesByTheDayTheyStarted) {
  const ReviewedBook book(three_weeks(), drift_within("2 %"), "2026-09-24");
  ASSERT_EQ(book.review().samples.size(), 3U);
  EXPECT_FALSE(book.review().samples[0].is_recent);
  EXPECT_TRUE(book.review().samples[1].is_recent);
  EXPECT_EQ(book.review().later_samples, 1U);
  EXPECT_EQ(book.review().recent.samples, 2U);
  EXPECT_EQ(book.review().earlier.void_, 1U);
}

TEST(Review, PutsBlanksWithTheirBatch) {
  const ReviewedBook book(three_weeks(), {}, "2026-09-24");
  EXPECT_EQ(book.review().samples[2].day, day("2026-09-21"));
  EXPECT_TRUE(book.review().samples[2].is_recent);
}

TEST(Review, KeepsASampleOfNoKnownDayAmongTheRecentOnes) {
  BookText text;
  text.samples = "sample,pump,started,stopped\nS1,P1,,\n";
  EXPECT_TRUE(ReviewedBook(text, {}, "2030-01-01").review().samples[0].is_recent);
}

TEST(Review, TellsWhatIsOpenFromBeforeApart) {
  const ReviewedBook book(three_weeks(), drift_within("2 %"), "2026-09-24");
  EXPECT_EQ(book.actions(), Texts{"(Sample again S1)"});
}

TEST(Review, TakesADecisionForSettled) {
  BookText text = three_weeks();
  text.decisions = "decided,by,subject,rule,ruling,reason\n2026-09-15T09:00,keeper,S1,own/drift,uphold,Seen.\n";
  const ReviewedBook book(text, drift_within("2 %"), "2026-09-24");
  EXPECT_EQ(book.actions(), Texts{});
  EXPECT_TRUE(book.review().samples[0].is_settled);
  ASSERT_EQ(book.review().decisions.size(), 1U);
  EXPECT_EQ(ReviewedBook(text, drift_within("2 %"), "2026-09-14").review().decisions.size(), 0U);
}

// `screen` doesn't hear such a ruling either: the record is mended.
TEST(Review, DoesNotHearADecisionOnARecordThatCannotBeUnderstood) {
  BookText text = three_weeks();
  text.readings += "2026-09-14T16:12,post,S1,V1,1.9x\n";
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-15T09:00,keeper,S1,book/faulty-records,overrule,Seen.\n";
  const ReviewedBook book(text, drift_within("2 %"), "2026-09-24");
  EXPECT_EQ(book.review().samples[0].verdict, Verdict::undecided);
  EXPECT_FALSE(book.review().samples[0].is_settled);
  EXPECT_EQ(book.review().recent.open + book.review().earlier.open, 1U);
}

TEST(Review, CountsBatchesWithTheirBlanks) {
  const ReviewedBook book(three_weeks(), drift_within("2 %"), "2026-09-24");
  ASSERT_EQ(book.review().batches.size(), 2U);
  const ReviewedBatch& second = book.review().batches[1];
  EXPECT_EQ(second.name, "B");
  EXPECT_EQ(second.blanks, 1U);
  EXPECT_EQ(second.totals.samples, 2U);
  EXPECT_TRUE(second.is_recent);
  EXPECT_EQ(book.review().batches[0].totals.void_, 1U);
  EXPECT_EQ(book.review().batches[0].first, day("2026-09-14"));
}

TEST(Review, AsksForABatchThatARuleFindsIncomplete) {
  const RulesText rules{{{Subject::batch, "blanks", "at_least", {"1"}, Otherwise::qualify}}};
  EXPECT_EQ(ReviewedBook(three_weeks(), rules, "2026-09-24").actions(), Texts{"(Look at the batch A)"});
}

TEST(Review, CountsHowOftenARuleCouldNotBeHeld) {
  const RulesText rules{{{Subject::sample, "warm-up", "at_least", {"5 min"}, Otherwise::void_, Absent::skip},
                         {Subject::sample, "drift", "within", {"5 %"}}}};
  const ReviewedBook book(three_weeks(), rules, "2026-10-01");
  ASSERT_EQ(book.review().unjudged.size(), 1U);
  EXPECT_EQ(book.review().unjudged[0].rule, 0U);
  EXPECT_GE(book.review().unjudged[0].passed_over, 3U);
  EXPECT_EQ(book.review().unjudged[0].undecided, 0U);
}

TEST(Review, ShowsTheMostUrgentInstrumentFirst) {
  BookText text = three_weeks();
  text.samples += "S4,C,sample,P2,2026-09-22T08:00,2026-09-22T16:00\n";
  text.readings += "2026-09-22T07:30,pre,S4,V1,2.000\n2026-09-22T16:10,post,S4,V1,1.800\n";
  const ReviewedBook book(text, drift_within("5 %"), "2026-09-24");
  ASSERT_GE(book.review().charted.size(), 2U);
  EXPECT_EQ(book.screening().book().instruments[book.review().charted[0]->instrument].name, "P2");
}

}  // namespace
}  // namespace driftwarden::review_test

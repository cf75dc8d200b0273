// SPDX-License-Identifier: MIT
#include "history/sample_action.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::sample_action_test {
namespace {

const std::string head = "decided,by,subject,rule,ruling,reason\n";

// What is to be done about S1.
std::optional<ReviewAction> action_of(const BookText& text, const RulesText& rules) {
  JudgedBook book(text, rules);
  return action_about(book.screening(), book.result("S1"));
}

BookText without_reading(const std::string& stage) {
  BookText text;
  const std::size_t begin = text.readings.find(stage) - 17;
  text.readings.erase(begin, text.readings.find('\n', begin) + 1 - begin);
  return text;
}

TEST(SampleAction, IsNoneForAValidSample) { EXPECT_FALSE(action_of({}, drift_within("5 %"))); }

TEST(SampleAction, OfAVoidSampleIsToTakeItAgain) {
  const auto action = action_of({}, drift_within("2 %"));
  ASSERT_TRUE(action);
  EXPECT_EQ(action->kind, ActionKind::resample);
  EXPECT_EQ(action->name, "S1");
  ASSERT_EQ(action->why.size(), 1U);
  EXPECT_EQ(action->why[0].said,
            "The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 2 %");
  EXPECT_EQ(action->why[0].rule, "own/drift");
}

TEST(SampleAction, OfAQualifiedSampleIsToWeighTheRemark) {
  EXPECT_EQ(action_of({}, drift_within("2 %", Otherwise::qualify))->kind, ActionKind::weigh);
}

TEST(SampleAction, NamesTheReadingThatIsMissing) {
  const auto post = action_of(without_reading("post"), drift_within("5 %"));
  EXPECT_EQ(post->kind, ActionKind::find_reading);
  EXPECT_EQ(post->what,
            "Look for the reading after sampling in the field notes and add it to the book; if there is none, take the "
            "sample again.");
  EXPECT_NE(action_of(without_reading("pre"), drift_within("5 %"))->what.find("the reading before sampling"),
            std::string::npos);
}

TEST(SampleAction, LooksForTheReadingAlsoWhereItsLackMakesTheSampleVoid) {
  const RulesText rules{{{Subject::sample, "post.count", "at_least", {"1"}}}};
  EXPECT_EQ(action_of(without_reading("post"), rules)->kind, ActionKind::find_reading);
}

TEST(SampleAction, DoesNotLookForAReadingWhereSomethingElseMakesItVoid) {
  BookText text = without_reading("post");
  text.samples = "sample,pump,started,stopped,fault\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,yes\n";
  const RulesText rules{{{Subject::sample, "fault", "is", {"no"}}, {Subject::sample, "drift", "within", {"5 %"}}}};
  EXPECT_EQ(action_of(text, rules)->kind, ActionKind::resample);
}

TEST(SampleAction, OfAnotherGapIsToFindWhatIsMissing) {
  const RulesText rules{{{Subject::sample, "warm-up", "at_least", {"5 min"}}}};
  const auto action = action_of({}, rules);
  EXPECT_EQ(action->kind, ActionKind::find_figure);
  EXPECT_EQ(action->what,
            "Look in the field notes for what is missing and add it to the book; until then the verdict is undecided.");
}

TEST(SampleAction, IsSettledByADecisionOnEverythingThatGaveTheVerdict) {
  BookText text;
  text.decisions = head + "2026-09-22T09:00,keeper,S1,own/drift,uphold,Seen.\n";
  EXPECT_FALSE(action_of(text, drift_within("2 %")));
  RulesText two = drift_within("2 %");
  two.rules.push_back({Subject::sample, "minutes", "at_most", {"60 min"}});
  EXPECT_TRUE(action_of(text, two));
}

TEST(SampleAction, IsNoneWhereARecordHasToBeMended) {
  BookText text;
  text.readings += "2026-09-21T16:12,post,S1,V1,1.9x\n";
  EXPECT_FALSE(action_of(text, drift_within("2 %")));
}

}  // namespace
}  // namespace driftwarden::sample_action_test

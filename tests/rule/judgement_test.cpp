// SPDX-License-Identifier: MIT
#include "rule/judgement.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "rule/pack_text.hpp"

namespace driftwarden::judgement_test {
namespace {

// input: figures just inside and just beyond a limit.

const double nan = std::numeric_limits<double>::quiet_NaN();

// A rule that holds a measure of a sample to a limit as a pack writes it; otherwise void.
Rule rule(const std::string& measure, const std::string& written, const std::string& good, const std::string& bad) {
  const auto example = [&](const std::string& value, const std::string& gives) {
    return "[[rule.example]]\ngiven = { \"" + measure + "\" = " + value + " }\ngives = \"" + gives + "\"\n";
  };
  PackText pack;
  pack.with("measure", '"' + measure + '"').limit(written).examples(example(good, "valid") + example(bad, "void"));
  EXPECT_EQ(pack.faults(), "");
  return pack.rule();
}

Outcome outcome(const Rule& rule, double figure) { return judge(rule, {figure, nan, {}}).outcome; }
Outcome outcome_of_word(const Rule& rule, std::string_view word) { return judge(rule, {nan, nan, word}).outcome; }

TEST(Judgement, WithinIncludesTheLimitOnBothSides) {
  const Rule within = rule("drift", "within = \"5 %\"", "\"5 %\"", "\"5.1 %\"");
  EXPECT_EQ(outcome(within, 0.0499), Outcome::met);
  EXPECT_EQ(outcome(within, 0.05), Outcome::met);
  EXPECT_EQ(outcome(within, 0.0501), Outcome::void_);
  EXPECT_EQ(outcome(within, -0.0499), Outcome::met);
  EXPECT_EQ(outcome(within, -0.05), Outcome::met);
  EXPECT_EQ(outcome(within, -0.0501), Outcome::void_);
}

TEST(Judgement, StrictlyWithinLeavesTheLimitOut) {
  const Rule strictly = rule("drift", "strictly_within = \"5 %\"", "\"4.9 %\"", "\"5 %\"");
  EXPECT_EQ(outcome(strictly, 0.0499), Outcome::met);
  EXPECT_EQ(outcome(strictly, 0.05), Outcome::void_);
  EXPECT_EQ(outcome(strictly, 0.0501), Outcome::void_);
  EXPECT_EQ(outcome(strictly, -0.0499), Outcome::met);
  EXPECT_EQ(outcome(strictly, -0.05), Outcome::void_);
}

TEST(Judgement, AtMostIncludesTheLimitAndLessThanDoesNot) {
  const Rule at_most = rule("minutes", "at_most = \"8 h\"", "\"480 min\"", "\"481 min\"");
  EXPECT_EQ(outcome(at_most, 479), Outcome::met);
  EXPECT_EQ(outcome(at_most, 480), Outcome::met);
  EXPECT_EQ(outcome(at_most, 481), Outcome::void_);
  EXPECT_EQ(outcome(at_most, -1e9), Outcome::met);
  const Rule less_than = rule("minutes", "less_than = \"8 h\"", "\"479 min\"", "\"480 min\"");
  EXPECT_EQ(outcome(less_than, 479), Outcome::met);
  EXPECT_EQ(outcome(less_than, 480), Outcome::void_);
  EXPECT_EQ(outcome(less_than, 481), Outcome::void_);
}

TEST(Judgement, AtLeastIncludesTheLimitAndMoreThanDoesNot) {
  const Rule at_least = rule("pre.count", "at_least = 3", "3", "2");
  EXPECT_EQ(outcome(at_least, 2), Outcome::void_);
  EXPECT_EQ(outcome(at_least, 3), Outcome::met);
  EXPECT_EQ(outcome(at_least, 4), Outcome::met);
  const Rule more_than = rule("pre.count", "more_than = 3", "4", "3");
  EXPECT_EQ(outcome(more_than, 2), Outcome::void_);
  EXPECT_EQ(outcome(more_than, 3), Outcome::void_);
  EXPECT_EQ(outcome(more_than, 4), Outcome::met);
}

TEST(Judgement, BetweenIncludesBothEnds) {
  const Rule between = rule("flow", "between = [\"1.5 L/min\", \"2.5 L/min\"]", "\"2 L/min\"", "\"1 L/min\"");
  EXPECT_EQ(outcome(between, 1.4999), Outcome::void_);
  EXPECT_EQ(outcome(between, 1.5), Outcome::met);
  EXPECT_EQ(outcome(between, 2.0), Outcome::met);
  EXPECT_EQ(outcome(between, 2.5), Outcome::met);
  EXPECT_EQ(outcome(between, 2.5001), Outcome::void_);
}

TEST(Judgement, OfALimitOfZeroDaysLetsTheDueDayPass) {
  const Rule overdue = rule("calibrator.overdue", "at_most = \"0 d\"", "\"0 d\"", "\"1 d\"");
  EXPECT_EQ(outcome(overdue, -1440), Outcome::met);
  EXPECT_EQ(outcome(overdue, 0), Outcome::met);
  EXPECT_EQ(outcome(overdue, 1440), Outcome::void_);
}

// 2.000 -> 1.900 L/min is exactly -5 %; in doubles the quotient comes out beyond it.
TEST(Judgement, TakesAFigureThatRoundingPutsBeyondTheLimitAsOnIt) {
  const double drift = (1.9 - 2.0) / 2.0;
  ASSERT_LT(drift, -0.05);
  const Judgement met = judge(rule("drift", "within = \"5 %\"", "\"5 %\"", "\"5.1 %\""), {drift, nan, {}});
  EXPECT_EQ(met.outcome, Outcome::met);
  EXPECT_EQ(met.margin, 0);
  const Judgement refused = judge(rule("drift", "strictly_within = \"5 %\"", "\"4.9 %\"", "\"5 %\""), {drift, nan, {}});
  EXPECT_EQ(refused.outcome, Outcome::void_);
  EXPECT_EQ(refused.margin, 0);
}

TEST(Judgement, TellsTheNearerEndAndTheMarginToIt) {
  const Rule within = rule("drift", "within = \"5 %\"", "\"5 %\"", "\"5.1 %\"");
  const Judgement inside = judge(within, {0.03, nan, {}});
  EXPECT_EQ(inside.figure, 0.03);
  EXPECT_EQ(inside.limit, 0.05);
  EXPECT_DOUBLE_EQ(inside.margin, 0.02);
  const Judgement beyond = judge(within, {-0.07, nan, {}});
  EXPECT_EQ(beyond.limit, -0.05);
  EXPECT_DOUBLE_EQ(beyond.margin, -0.02);
  const Judgement low = judge(rule("pre.count", "at_least = 3", "3", "2"), {2, nan, {}});
  EXPECT_EQ(low.limit, 3);
  EXPECT_EQ(low.margin, -1);
}

TEST(Judgement, OfAnAbsoluteLimitComparesTheDifferenceBehindTheRatio) {
  const Rule absolute = rule("drift", "within = \"0.1 L/min\"", "\"0.1 L/min\"", "\"0.11 L/min\"");
  EXPECT_EQ(judge(absolute, {0.5, 0.1, {}}).outcome, Outcome::met);
  EXPECT_EQ(judge(absolute, {0.5, -0.1, {}}).outcome, Outcome::met);
  const Judgement beyond = judge(absolute, {0.01, -0.11, {}});
  EXPECT_EQ(beyond.outcome, Outcome::void_);
  EXPECT_EQ(beyond.figure, -0.11);
  EXPECT_DOUBLE_EQ(beyond.margin, -0.01);
  EXPECT_EQ(judge(absolute, {0.01, nan, {}}).outcome, Outcome::undecided);
}

// Of a base of 2.0 L/min 5 % are 0.1 L/min; of a smaller one the 0.1 L/min are wider, of a larger one the 5 %.
TEST(Judgement, OfALimitWithAnAlternativeIsMetWithinEither) {
  const Rule either = rule("drift", "within = \"5 %\"\nor_within = \"0.1 L/min\"", "\"5 %\"", "\"5.1 %\"");
  EXPECT_EQ(either.limit.text, "within 5 % or 0.1 L/min");
  EXPECT_EQ(judge(either, {-0.06, -0.09, {}}).outcome, Outcome::met);
  EXPECT_EQ(judge(either, {0.04, 0.2, {}}).outcome, Outcome::met);
  EXPECT_EQ(judge(either, {-0.0625, -0.1, {}}).outcome, Outcome::met);
  EXPECT_EQ(judge(either, {-0.06, -0.11, {}}).outcome, Outcome::void_);
  EXPECT_EQ(judge(either, {0.06, nan, {}}).outcome, Outcome::void_);  // without the base only the first counts
  EXPECT_EQ(judge(either, {0, 0, {}}).outcome, Outcome::met);
}

TEST(Judgement, OfALimitWithAnAlternativeTellsTheWiderEnd) {
  const Rule either = rule("drift", "within = \"5 %\"\nor_within = \"0.1 L/min\"", "\"5 %\"", "\"5.1 %\"");
  const Judgement judgement = judge(either, {-0.06, -0.09, {}});
  EXPECT_DOUBLE_EQ(judgement.limit, -0.1 * 0.06 / 0.09);
  EXPECT_DOUBLE_EQ(limit_held_to(either, judgement).high, 0.1 * 0.06 / 0.09);
  EXPECT_EQ(limit_held_to(either, judge(either, {0.04, 0.2, {}})).high, 0.05);
  const Rule absolute = rule("drift", "within = \"0.1 L/min\"\nor_within = \"5 %\"", "\"0.1 L/min\"", "\"0.2 L/min\"");
  EXPECT_EQ(judge(absolute, {0.04, 0.2, {}}).outcome, Outcome::met);
  EXPECT_EQ(judge(absolute, {0.06, 0.2, {}}).outcome, Outcome::void_);
}

TEST(Judgement, OfAYesOrNoTakesAWordOrAFigure) {
  const Rule no_fault = rule("fault", "is = \"no\"", "\"no\"", "\"yes\"");
  EXPECT_EQ(outcome_of_word(no_fault, "no"), Outcome::met);
  EXPECT_EQ(outcome_of_word(no_fault, "yes"), Outcome::void_);
  EXPECT_EQ(outcome(no_fault, 0), Outcome::met);
  EXPECT_EQ(outcome(no_fault, 1), Outcome::void_);
  EXPECT_EQ(outcome(no_fault, nan), Outcome::undecided);
  EXPECT_TRUE(std::isnan(judge(no_fault, {1, nan, {}}).margin));
}

TEST(Judgement, OfAWordTakesOneOfTheList) {
  const Rule centre = rule("calibrator.read-at", "one_of = [\"centre\"]", "\"centre\"", "\"top\"");
  EXPECT_EQ(outcome_of_word(centre, "centre"), Outcome::met);
  EXPECT_EQ(outcome_of_word(centre, "top"), Outcome::void_);
  EXPECT_EQ(outcome_of_word(centre, ""), Outcome::undecided);
}

TEST(Judgement, HasTheConsequenceThatTheRuleNames) {
  Rule within = rule("drift", "within = \"5 %\"", "\"5 %\"", "\"5.1 %\"");
  within.otherwise = Otherwise::note;
  EXPECT_EQ(outcome(within, 0.1), Outcome::note);
  within.otherwise = Otherwise::qualify;
  EXPECT_EQ(outcome(within, 0.1), Outcome::qualified);
  within.otherwise = Otherwise::void_;
  EXPECT_EQ(outcome(within, 0.1), Outcome::void_);
}

TEST(Judgement, OfAMissingMeasureIsWhatTheRuleSaysOfIt) {
  Rule within = rule("drift", "within = \"5 %\"", "\"5 %\"", "\"5.1 %\"");
  EXPECT_EQ(outcome(within, nan), Outcome::undecided);
  within.absent = Absent::void_;
  EXPECT_EQ(outcome(within, nan), Outcome::void_);
  within.absent = Absent::qualify;
  EXPECT_EQ(outcome(within, nan), Outcome::qualified);
  within.absent = Absent::skip;
  EXPECT_EQ(outcome(within, nan), Outcome::skipped);
  EXPECT_TRUE(std::isnan(judge_missing(within).figure));
  EXPECT_TRUE(std::isnan(judge_missing(within).limit));
}

TEST(Judgement, OfAYesOrNoGoesByTheWordWhereThereIsAFigureToo) {
  const Rule no_fault = rule("fault", "is = \"no\"", "\"no\"", "\"yes\"");
  EXPECT_EQ(judge(no_fault, {1, nan, "no"}).outcome, Outcome::met);
}

TEST(Judgement, HoldsAFigureInTheMiddleToTheUpperEnd) {
  EXPECT_EQ(judge(rule("drift", "within = \"5 %\"", "\"5 %\"", "\"5.1 %\""), {0, nan, {}}).limit, 0.05);
}

TEST(Judgement, WithoutAnAlternativeIsHeldToTheRulesOwnLimit) {
  const Rule at_least = rule("minutes", "at_least = \"2 h\"", "\"120 min\"", "\"119 min\"");
  const Limit held = limit_held_to(at_least, judge(at_least, {130, nan, {}}));
  EXPECT_EQ(held.low, 120);
  EXPECT_TRUE(std::isinf(held.high));
}

TEST(Judgement, WithAnAlternativeIsHeldToBothEndsOfIt) {
  const Rule either = rule("drift", "within = \"5 %\"\nor_within = \"0.1 L/min\"", "\"5 %\"", "\"5.1 %\"");
  const Limit held = limit_held_to(either, judge(either, {0.06, 0.09, {}}));
  EXPECT_EQ(held.low, -held.high);
  EXPECT_GT(held.high, 0.06);
  EXPECT_EQ(limit_held_to(either, judge(either, {nan, nan, {}})).high, 0.05);
}

}  // namespace
}  // namespace driftwarden::judgement_test

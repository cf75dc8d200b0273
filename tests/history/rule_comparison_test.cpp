// SPDX-License-Identifier: MIT
#include "history/rule_comparison.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "support/book_text.hpp"

namespace driftwarden::rule_comparison_test {
namespace {

// S1 drifts by -2.5 % in 480 minutes; S2 has no readings.
BookText two_samples() {
  BookText text;
  text.samples += "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  return text;
}

struct Compared {
  Compared(const BookText& text, const RulesText& now, const RulesText& then, double guard_then = 0)
      : book(book_of(text)),
        before_rules(now.rule_set()),
        after_rules(then.rule_set()),
        before(book, before_rules),
        after(book, after_rules) {
    after.narrow_limits_by(guard_then);
    std::vector<Row> rows(book.samples.size());
    std::iota(rows.begin(), rows.end(), Row{0});
    comparison = compare_rules(before, after, rows);
  }
  Book book;
  RuleSet before_rules;
  RuleSet after_rules;
  Screening before;
  Screening after;
  RuleComparison comparison;
};

RulesText drift_limit(const std::string& limit, Otherwise otherwise = Otherwise::void_) {
  return {{{Subject::sample, "drift", "within", {limit}, otherwise}}};
}

std::size_t changes(const RuleComparison& comparison, Verdict from, Verdict to) {
  return comparison.samples[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)];
}

TEST(RuleComparison, OfTheSameRulesFindsNothing) {
  const Compared compared(two_samples(), drift_limit("2 %"), drift_limit("2 %"));
  EXPECT_TRUE(compared.comparison.changed.empty());
  EXPECT_EQ(compared.comparison.before.samples, 2U);
  EXPECT_EQ(changes(compared.comparison, Verdict::void_, Verdict::void_), 1U);
  EXPECT_EQ(changes(compared.comparison, Verdict::undecided, Verdict::undecided), 1U);
}

TEST(RuleComparison, TellsEachChangeWithTheMarginsOfBothSides) {
  const Compared compared(two_samples(), drift_limit("5 %"), drift_limit("2 %"));
  ASSERT_EQ(compared.comparison.changed.size(), 1U);
  const ChangedSample& s1 = compared.comparison.changed[0];
  EXPECT_EQ(s1.before, Verdict::valid);
  EXPECT_EQ(s1.after, Verdict::void_);
  ASSERT_EQ(s1.differences.size(), 1U);
  const Difference& drift = s1.differences[0];
  EXPECT_EQ(drift.measure, "drift");
  ASSERT_TRUE(drift.before && drift.after);
  EXPECT_EQ(drift.before->outcome, Outcome::met);
  EXPECT_EQ(drift.before->message,
            "The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after, within the limit of 5 %");
  EXPECT_NEAR(drift.before->figures.value, -2.5, 1e-9);
  EXPECT_NEAR(drift.before->figures.margin, 2.5, 1e-9);
  EXPECT_EQ(drift.after->outcome, Outcome::void_);
  EXPECT_EQ(drift.after->message,
            "The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 2 %");
  EXPECT_NEAR(drift.after->figures.margin, -0.5, 1e-9);
  EXPECT_EQ(drift.after->figures.unit, "%");
}

TEST(RuleComparison, CountsBothSidesAndEachWayOfChanging) {
  const Compared compared(two_samples(), drift_limit("2 %"), drift_limit("2 %", Otherwise::qualify));
  EXPECT_EQ(compared.comparison.before.void_, 1U);
  EXPECT_EQ(compared.comparison.after.qualified, 1U);
  EXPECT_EQ(compared.comparison.after.undecided, 1U);
  EXPECT_EQ(changes(compared.comparison, Verdict::void_, Verdict::qualified), 1U);
}

TEST(RuleComparison, SaysWhereASideHasNoRuleAboutTheMeasure) {
  const Compared compared(two_samples(), drift_limit("2 %"),
                          {{{Subject::sample, "minutes", "at_least", {"500 min"}, Otherwise::qualify}}});
  ASSERT_EQ(compared.comparison.changed.size(), 2U);
  const std::vector<Difference>& differences = compared.comparison.changed[0].differences;
  ASSERT_EQ(differences.size(), 2U);
  EXPECT_EQ(differences[0].measure, "drift");
  EXPECT_TRUE(differences[0].before);
  EXPECT_FALSE(differences[0].after);
  EXPECT_EQ(differences[1].measure, "minutes");
  EXPECT_FALSE(differences[1].before);
  EXPECT_EQ(differences[1].after->rule, "own/minutes");
}

TEST(RuleComparison, TakesTheStrictestOfSeveralRulesAboutOneMeasure) {
  RulesText two = drift_limit("5 %");
  two.rules.push_back({Subject::sample, "drift", "within", {"2 %"}, Otherwise::qualify});
  const Compared compared(two_samples(), drift_limit("5 %"), two);
  ASSERT_EQ(compared.comparison.changed.size(), 1U);
  EXPECT_EQ(compared.comparison.changed[0].after, Verdict::qualified);
  EXPECT_EQ(compared.comparison.changed[0].differences[0].after->outcome, Outcome::qualified);
}

TEST(RuleComparison, LeavesOutMeasuresThatBothSidesSayTheSameOf) {
  RulesText now{{{Subject::sample, "minutes", "at_least", {"500 min"}, Otherwise::qualify}}};
  RulesText then = now;
  then.rules.push_back({Subject::sample, "drift", "within", {"2 %"}});
  const Compared compared(two_samples(), now, then);
  ASSERT_EQ(compared.comparison.changed.size(), 2U);
  ASSERT_EQ(compared.comparison.changed[0].differences.size(), 1U);
  EXPECT_EQ(compared.comparison.changed[0].differences[0].measure, "drift");
}

TEST(RuleComparison, HoldsTheOtherSideToItsOwnGuardBand) {
  BookText text = two_samples();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
      "[%],coverage factor\nC1,V1,2026-01-05,2,2,2,1,2\n";
  text.readings +=
      "2026-09-21T07:31,pre,S1,V1,2.010\n2026-09-21T07:32,pre,S1,V1,1.990\n"
      "2026-09-21T16:11,post,S1,V1,1.960\n2026-09-21T16:12,post,S1,V1,1.940\n";
  const Compared compared(text, drift_limit("2.6 %"), drift_limit("2.6 %"), 1);
  ASSERT_EQ(compared.comparison.changed.size(), 1U);
  EXPECT_EQ(compared.comparison.changed[0].after, Verdict::qualified);
  EXPECT_NE(compared.comparison.changed[0].differences[0].after->message.find("guard band of 1.00 U"),
            std::string::npos);
}

TEST(RuleComparison, LeavesDecisionsOut) {
  BookText text = two_samples();
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S1,own/drift,overrule,looked at\n";
  const Compared compared(text, drift_limit("2 %"), drift_limit("5 %"));
  ASSERT_EQ(compared.comparison.changed.size(), 1U);
  EXPECT_EQ(compared.comparison.changed[0].before, Verdict::void_);
}

}  // namespace
}  // namespace driftwarden::rule_comparison_test

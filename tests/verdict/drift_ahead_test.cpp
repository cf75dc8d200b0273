// SPDX-License-Identifier: MIT
#include "verdict/drift_ahead.hpp"

#include <gtest/gtest.h>

#include "assessment/pump_history.hpp"
#include "verdict/ahead_book.hpp"

namespace driftwarden::drift_ahead_test {
namespace {

DriftAhead drift(const std::vector<double>& drifts, const RulesText& rules = ahead_rules(), double flow_l_min = 2) {
  static std::unique_ptr<JudgedBook> book;
  book = std::make_unique<JudgedBook>(with_uses(drifts), rules);
  SampleAhead sample;
  sample.pump = 0;
  sample.nominal_l_min = flow_l_min;
  const Moment later = day_from({2027, 1, 1}) * Moment{86400};
  return drift_ahead(book->screening(), sample, rules_ahead(book->screening(), sample, no_row), later);
}

const std::vector<double> ten_uses(10, 0.02);

// own input: ten uses of 2 %, t for 95 % and 10 degrees of freedom 2.2281389, and twice the share beyond 2.5,
// 0.0314468; computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DriftAhead, IsStudentsIntervalOfTheEarlierUses) {
  const DriftAhead ahead = drift(ten_uses);
  EXPECT_EQ(ahead.earlier.uses, 10U);
  EXPECT_NEAR(ahead.earlier.s, 0.02, 1e-12);
  EXPECT_NEAR(ahead.within, 0.02 * 2.2281389, 1e-9);
  EXPECT_NEAR(ahead.limit_low, -0.05, 1e-12);
  EXPECT_NEAR(ahead.limit_high, 0.05, 1e-12);
  EXPECT_NEAR(ahead.beyond_limits, 0.0314468, 1e-7);
  EXPECT_EQ(ahead.rule->full_name(), "own/drift");
}

TEST(DriftAhead, IsNotForetoldByFewerThanFiveUses) {
  EXPECT_TRUE(is_missing(drift({0.01, 0.01, 0.01, 0.01}).within));
  EXPECT_FALSE(is_missing(drift({0.01, 0.01, 0.01, 0.01, 0.01}).within));
  EXPECT_TRUE(is_missing(drift({0.01}).beyond_limits));
}

RulesText one_rule(std::string_view form, const std::vector<std::string>& values) {
  RulesText rules;
  rules.rules = {{Subject::sample, "drift", form, values}};
  return rules;
}

// own input: the shares of Student's t with 10 degrees of freedom below -1, 0.1704466, and above 5, 0.0002687; computed
// with SciPy 1.10 by tests/support/computed_records.py.
TEST(DriftAhead, HoldsItToBothEndsOfALimitEachByItsOwnProbability) {
  const DriftAhead both = drift(ten_uses, one_rule("between", {"-2 %", "10 %"}));
  EXPECT_NEAR(both.limit_low, -0.02, 1e-12);
  EXPECT_NEAR(both.limit_high, 0.1, 1e-12);
  EXPECT_NEAR(both.beyond_limits, 0.1704466 + 0.0002687, 1e-7);
  const DriftAhead low = drift(ten_uses, one_rule("at_least", {"-2 %"}));
  EXPECT_TRUE(is_missing(low.limit_high));
  EXPECT_NEAR(low.beyond_limits, 0.1704466, 1e-7);
  const DriftAhead high = drift(ten_uses, one_rule("at_most", {"10 %"}));
  EXPECT_TRUE(is_missing(high.limit_low));
  EXPECT_NEAR(high.beyond_limits, 0.0002687, 1e-7);
}

TEST(DriftAhead, TellsTheRuleThatIsLikeliestToVoid) {
  RulesText rules = one_rule("within", {"5 %"});
  rules.rules.push_back({Subject::sample, "drift", "between", {"-2 %", "10 %"}});
  EXPECT_NEAR(drift(ten_uses, rules).limit_low, -0.02, 1e-12) << "0.17 and not 0.03";
}

TEST(DriftAhead, OfAPumpThatNeverMovedIsNoneOrCertain) {
  EXPECT_EQ(drift(std::vector<double>(10, 0.0)).beyond_limits, 0);
  EXPECT_EQ(drift(std::vector<double>(10, 0.0), one_rule("at_least", {"1 %"})).beyond_limits, 1);
}

TEST(DriftAhead, LooksAtTheNarrowestRuleThatVoids) {
  RulesText rules;
  rules.rules = {{Subject::sample, "drift", "within", {"3 %"}, Otherwise::qualify},
                 {Subject::sample, "drift", "within", {"10 %"}},
                 {Subject::sample, "drift", "within", {"0.1 L/min"}}};
  EXPECT_NEAR(drift(ten_uses, rules).limit_high, 0.05, 1e-12) << "0.1 of 2 L/min";
  EXPECT_NEAR(drift(ten_uses, rules, 0.5).limit_high, 0.1, 1e-12) << "0.1 of 0.5 L/min are 20 %";
  EXPECT_EQ(drift(ten_uses, RulesText{}).rule, nullptr);
  EXPECT_TRUE(is_missing(drift(ten_uses, RulesText{}).beyond_limits));
}

}  // namespace
}  // namespace driftwarden::drift_ahead_test

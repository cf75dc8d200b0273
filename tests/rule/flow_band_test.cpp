// SPDX-License-Identifier: MIT
#include "rule/flow_band.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "rule/judgement.hpp"
#include "support/book_text.hpp"

namespace driftwarden::flow_band_test {
namespace {

// input: limits and nominal flows, where nothing else is said.

Rule of(std::string_view measure, std::string_view form, std::vector<std::string> values,
        Subject subject = Subject::sample) {
  return RuleText{subject, measure, form, std::move(values)}.rule();
}

TEST(FlowBand, OfADeviationLiesAroundTheNominalFlow) {
  const auto band = flow_band(of("pre.deviation", "within", {"5 %"}), 2.0);
  ASSERT_TRUE(band);
  EXPECT_NEAR(band->low_l_min, 1.9, 1e-12);
  EXPECT_NEAR(band->high_l_min, 2.1, 1e-12);
  EXPECT_TRUE(band->holds(1.9));
  EXPECT_TRUE(band->holds(2.1));
  EXPECT_FALSE(band->holds(1.8999));
  EXPECT_FALSE(band->holds(2.1001));
}

TEST(FlowBand, OfADifferenceInLitresAMinuteIsTheSameForEveryNominalFlow) {
  const auto band = flow_band(of("pre.deviation", "within", {"0.1 L/min"}), 1.7);
  ASSERT_TRUE(band);
  EXPECT_NEAR(band->low_l_min, 1.6, 1e-12);
  EXPECT_NEAR(band->high_l_min, 1.8, 1e-12);
}

TEST(FlowBand, OfAFlowNeedsNoNominalOne) {
  const auto band = flow_band(of("pre.flow", "between", {"1.615 L/min", "1.785 L/min"}), missing);
  ASSERT_TRUE(band);
  EXPECT_EQ(band->low_l_min, 1.615);
  EXPECT_EQ(band->high_l_min, 1.785);
}

TEST(FlowBand, OfOneSidedLimitsIsOpen) {
  const auto band = flow_band(of("pre.flow", "at_least", {"1.5 L/min"}), 2.0);
  ASSERT_TRUE(band);
  EXPECT_EQ(band->low_l_min, 1.5);
  EXPECT_TRUE(std::isinf(band->high_l_min));
  EXPECT_TRUE(band->holds(100));
}

TEST(FlowBand, ThatExcludesItsEndsDoesNotHoldThem) {
  const auto band = flow_band(of("pre.deviation", "strictly_within", {"5 %"}), 2.0);
  ASSERT_TRUE(band);
  EXPECT_FALSE(band->holds(1.9));
  EXPECT_TRUE(band->holds(1.9001));
}

TEST(FlowBand, IsTheWiderWhereEitherOfTwoWillDo) {
  Rule rule = of("pre.deviation", "within", {"5 %"});
  rule.limit.or_within = 0.2;
  const auto band = flow_band(rule, 2.0);
  ASSERT_TRUE(band);
  EXPECT_NEAR(band->low_l_min, 1.8, 1e-12);
  EXPECT_NEAR(band->high_l_min, 2.2, 1e-12);
}

TEST(FlowBand, IsNoneOfOtherMeasuresNorWithoutANominalFlow) {
  EXPECT_FALSE(flow_band(of("pre.deviation", "within", {"5 %"}), missing));
  EXPECT_FALSE(flow_band(of("pre.count", "at_least", {"3"}), 2.0));
  EXPECT_FALSE(flow_band(of("drift", "within", {"5 %"}), 2.0));
}

// A band holds just the flows that the rule itself is kept by.
TEST(FlowBand, HoldsWhatTheRuleJudgesToBeKept) {
  for (const char* form : {"within", "strictly_within"}) {
    for (const char* value : {"5 %", "0.1 L/min"}) {
      const Rule rule = of("pre.deviation", form, {value});
      const auto band = flow_band(rule, 2.0);
      ASSERT_TRUE(band);
      for (int step = 1700; step <= 2300; ++step) {
        const double flow = step / 1000.0;
        EXPECT_EQ(band->holds(flow), judge(rule, deviation_value(flow, 2.0)).outcome == Outcome::met)
            << form << " " << value << " " << flow;
      }
    }
  }
}

}  // namespace
}  // namespace driftwarden::flow_band_test

// SPDX-License-Identifier: MIT
#include "history/chart_choices.hpp"

#include <gtest/gtest.h>

namespace driftwarden::chart_choices_test {
namespace {

TEST(ChartChoices, AreTwoRulesAndTwentyPointsWhereNothingIsSaid) {
  const auto choices = chart_choices({});
  ASSERT_TRUE(choices);
  EXPECT_EQ(choices->baseline, 20U);
  ASSERT_EQ(choices->rules.size(), 2U);
  EXPECT_EQ(choices->rules[0].pattern, RunPattern::beyond_limit);
  EXPECT_EQ(choices->rules[1].pattern, RunPattern::one_side);
  EXPECT_EQ(choices->rules[1].length, 8U);
}

TEST(ChartChoices, TakeWhatTheBookSays) {
  Settings::History said;
  said.baseline = 12;
  said.target = 325;
  said.ewma_lambda = 0.3;
  said.ewma_width = 3;
  said.cusum_k = 0.75;
  said.cusum_h = 10;
  said.run_rules = {"nelson"};
  const auto choices = chart_choices(said);
  ASSERT_TRUE(choices);
  EXPECT_EQ(choices->baseline, 12U);
  EXPECT_EQ(choices->target, 325);
  EXPECT_EQ(choices->ewma_lambda, 0.3);
  EXPECT_EQ(choices->ewma_width, 3);
  EXPECT_EQ(choices->cusum_k, 0.75);
  EXPECT_EQ(choices->cusum_h, 10);
  EXPECT_EQ(choices->rules.size(), 8U);
}

// The reader of book.toml stands below the charts and has a number of its own.
TEST(ChartChoices, AreNotReadWithABaselineThatGivesNoLimits) {
  const auto is_read = [](std::size_t points) {
    const std::string text = "time_zone = \"UTC\"\n[history]\nbaseline = " + std::to_string(points) + "\n";
    return static_cast<bool>(parse_settings(text, "book.toml"));
  };
  EXPECT_TRUE(is_read(fewest_usual_points));
  EXPECT_FALSE(is_read(fewest_usual_points - 1));
}

TEST(ChartChoices, TakeTheDaysOfABaseline) {
  Settings::History said;
  said.baseline_from = 100;
  said.baseline_to = 120;
  EXPECT_EQ(chart_choices(said)->baseline_from, 100);
  EXPECT_EQ(chart_choices(said)->baseline_to, 120);
  EXPECT_EQ(chart_choices({})->baseline_from, no_day);
}

TEST(ChartChoices, HoldARuleOnceThatTwoSetsName) {
  Settings::History said;
  said.run_rules = {"western-electric", "nelson"};
  EXPECT_EQ(chart_choices(said)->rules.size(), 9U);  // the runs of 8 and of 9 are two rules
}

TEST(ChartChoices, CanBeNoRuleAtAll) {
  Settings::History said;
  said.run_rules.emplace();
  EXPECT_TRUE(chart_choices(said)->rules.empty());
}

TEST(ChartChoices, NameTheNearestWordForAnUnknownRule) {
  Settings::History said;
  said.place = {"book.toml", 7, 1};
  said.run_rules = {"nelsen", "run-of-8"};
  const auto choices = chart_choices(said);
  ASSERT_FALSE(choices);
  EXPECT_EQ(to_text(choices.faults().front()),
            "book.toml:7:1: error: 'nelsen' is no run rule; did you mean 'nelson'? [history/unknown-run-rule]");
}

}  // namespace
}  // namespace driftwarden::chart_choices_test

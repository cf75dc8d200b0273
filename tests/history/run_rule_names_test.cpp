// SPDX-License-Identifier: MIT
#include "history/run_rule_names.hpp"

#include <gtest/gtest.h>

namespace driftwarden::run_rule_names_test {
namespace {

TEST(RunRuleNames, ReadBackToTheSameRule) {
  for (const RunRule& rule : nelson_rules) {
    const auto read = run_rules_named(name_of(rule));
    ASSERT_TRUE(read) << name_of(rule);
    ASSERT_EQ(read->size(), 1U);
    EXPECT_EQ(read->front().pattern, rule.pattern);
    EXPECT_EQ(read->front().length, rule.length);
  }
}

TEST(RunRuleNames, TellWhatTheRuleIs) {
  EXPECT_EQ(name_of({RunPattern::beyond_limit, 1}), "beyond-limits");
  EXPECT_EQ(name_of({RunPattern::one_side, 8}), "run-of-8");
  EXPECT_EQ(name_of({RunPattern::stratification, 15}), "inside-of-15");
}

TEST(RunRuleNames, StandForTheTwoPublishedSets) {
  EXPECT_EQ(run_rules_named("western-electric")->size(), 4U);
  EXPECT_EQ(run_rules_named("western-electric")->at(3).length, 8U);
  EXPECT_EQ(run_rules_named("nelson")->size(), 8U);
  EXPECT_EQ(run_rules_named("nelson")->at(1).length, 9U);
}

TEST(RunRuleNames, TakeOtherLengths) { EXPECT_EQ(run_rules_named("run-of-7")->front().length, 7U); }

TEST(RunRuleNames, RefuseLengthsThatMeanNothing) {
  for (const std::string_view word :
       {"run-of-1", "trend-of-2", "alternating-of-2", "run-of-51", "run-of-", "run-of-8x", "run-of--8"}) {
    EXPECT_FALSE(run_rules_named(word)) << word;
  }
}

TEST(RunRuleNames, RefuseOtherWords) {
  EXPECT_FALSE(run_rules_named(""));
  EXPECT_FALSE(run_rules_named("beyond"));
}

TEST(RunRuleNames, AreAllKnownToTheHint) {
  for (const std::string& name : known_run_rules()) EXPECT_TRUE(run_rules_named(name)) << name;
}

}  // namespace
}  // namespace driftwarden::run_rule_names_test

// SPDX-License-Identifier: MIT
#include "rule/override.hpp"

#include <gtest/gtest.h>

#include "rule/judgement.hpp"
#include "rule/pack_text.hpp"

namespace driftwarden::override_test {
namespace {

// input: a figure just beyond the limit.

Override override_of(const std::string& rule) {
  Override change;
  change.rule = rule;
  change.reason = "because";
  change.place = {"book.toml", 7, 1};
  return change;
}

Override with_limit(const std::string& value) {
  Override change = override_of("p/r");
  change.limit = WrittenLimit{Limit::Form::within, {{value, {"book.toml", 9, 10}}}, {"book.toml", 9, 1}};
  return change;
}

struct Applied {
  Rule rule;
  std::string faults;
};

Applied apply(const std::vector<Override>& changes) {
  std::vector<Rule> rules = {PackText().rule()};
  const std::string faults = lines_of(apply_overrides(rules, changes));
  return {rules[0], faults};
}

TEST(RuleOverride, ChangesTheLimitAndKeepsWhatItWas) {
  const Applied applied = apply({with_limit("10 %")});
  EXPECT_EQ(applied.faults, "");
  EXPECT_EQ(applied.rule.limit.text, "within 10 %");
  EXPECT_EQ(judge(applied.rule, {0.1}).outcome, Outcome::met);
  EXPECT_EQ(judge(applied.rule, {0.1001}).outcome, Outcome::void_);
  ASSERT_TRUE(applied.rule.overridden);
  EXPECT_EQ(applied.rule.overridden->limit_before, "within 5 %");
  EXPECT_EQ(applied.rule.overridden->otherwise_before, "void");
  EXPECT_EQ(applied.rule.overridden->reason, "because");
  EXPECT_EQ(to_text(applied.rule.overridden->place), "book.toml:7:1");
}

TEST(RuleOverride, ChangesTheConsequenceAlone) {
  Override change = override_of("p/r");
  change.otherwise = Otherwise::qualify;
  const Applied applied = apply({change});
  EXPECT_EQ(applied.faults, "");
  EXPECT_EQ(applied.rule.limit.text, "within 5 %");
  EXPECT_EQ(judge(applied.rule, {0.1}).outcome, Outcome::qualified);
  EXPECT_EQ(applied.rule.overridden->otherwise_before, "void");
}

TEST(RuleOverride, SwitchesARuleOff) {
  Override change = override_of("p/r");
  change.enabled = false;
  const Applied applied = apply({change});
  EXPECT_FALSE(applied.rule.enabled);
  EXPECT_TRUE(applied.rule.overridden->enabled_before);
}

TEST(RuleOverride, OfAnUnknownRuleIsAnErrorWithTheNearestName) {
  EXPECT_EQ(apply({override_of("p/q")}).faults,
            "book.toml:7:1: error: no pack of the book has a rule 'p/q'; did you mean 'p/r'? "
            "[override/unknown-rule]\n");
  EXPECT_EQ(apply({override_of("r")}).faults,
            "book.toml:7:1: error: no pack of the book has a rule 'r'; did you mean 'p/r'? [override/unknown-rule]\n");
}

TEST(RuleOverride, WithoutAReasonIsAnError) {
  Override change = with_limit("10 %");
  change.reason.clear();
  EXPECT_EQ(apply({change}).faults,
            "book.toml:7:1: error: the override of 'p/r' has no reason; say why this book departs from the rule "
            "[override/no-reason]\n");
}

TEST(RuleOverride, ThatChangesNothingIsAnError) {
  EXPECT_EQ(apply({override_of("p/r")}).faults,
            "book.toml:7:1: error: the override of 'p/r' changes nothing; write a limit, otherwise or enabled "
            "[override/no-change]\n");
}

TEST(RuleOverride, OfARuleThatIsOverriddenAlreadyIsAnError) {
  Override second = with_limit("20 %");
  second.place.line = 12;
  EXPECT_EQ(apply({with_limit("10 %"), second}).faults,
            "book.toml:12:1: error: there is an override of 'p/r' already; it is at book.toml:7:1 [override/twice]\n");
}

TEST(RuleOverride, IsReadAsARulesLimitIs) {
  EXPECT_EQ(apply({with_limit("10 kPa")}).faults,
            "book.toml:9:10: error: '10 kPa' is a pressure, drift a ratio; units read are % or, of the difference "
            "itself, L/min, mL/min, cm3/min, m3/h, m3/min, ft3/min [amount/wrong-dimension]\n");
}

}  // namespace
}  // namespace driftwarden::override_test

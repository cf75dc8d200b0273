// SPDX-License-Identifier: MIT
#include "rule/selector.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::selector_test {
namespace {

Rule rule_about(std::string_view measure) {
  Rule rule = PackText().rule();
  rule.measure = *measure_named(Subject::sample, measure);
  return rule;
}

Rule rule_with(const std::string& key, const std::string& value) { return PackText().with(key, value).rule(); }

TEST(Selector, IsLeanedOnByARuleThatAsksForItsWord) {
  const Rule rule = rule_with("where", "{ method = \"M\" }");
  EXPECT_TRUE(leans_on(rule, Selector::method));
  EXPECT_FALSE(leans_on(rule, Selector::sampler));
  EXPECT_FALSE(leans_on(rule, Selector::analysis));
  EXPECT_TRUE(leans_on(rule_with("where", "{ analysis = \"A\" }"), Selector::analysis));
  EXPECT_FALSE(leans_on(PackText().rule(), Selector::sampler));
}

TEST(Selector, OfASamplerIsLeanedOnByWhatIsKnownByItsName) {
  EXPECT_TRUE(leans_on(rule_with("where", "{ fraction = \"respirable\" }"), Selector::sampler));
  EXPECT_TRUE(leans_on(rule_with("where", "{ nominal = { at_most = \"2 L/min\" } }"), Selector::sampler));
  EXPECT_TRUE(leans_on(rule_about("pre.deviation"), Selector::sampler));
  EXPECT_TRUE(leans_on(rule_about("field.nominal-deviation"), Selector::sampler));
  EXPECT_TRUE(leans_on(rule_with("base", "\"nominal\""), Selector::sampler));
  EXPECT_FALSE(leans_on(rule_about("field.deviation"), Selector::sampler));
}

TEST(Selector, HasARuleOfTheProgramsOwn) {
  const std::vector<Rule> rules = own_rules();
  ASSERT_EQ(rules.size(), 3U);
  EXPECT_EQ(rules[0].full_name(), "book/unknown-sampler");
  EXPECT_EQ(measure_of(rules[2]).name, "analysis.known");
  for (const Selector selector : selectors) {
    EXPECT_EQ(own_rule_name(selector), rules[static_cast<std::size_t>(selector)].full_name());
    EXPECT_FALSE(leans_on(rules[static_cast<std::size_t>(selector)], selector));
  }
}

}  // namespace
}  // namespace driftwarden::selector_test

// SPDX-License-Identifier: MIT
#include "rule/rule.hpp"

#include <gtest/gtest.h>

namespace driftwarden::rule_test {
namespace {

TEST(Rule, IsNamedInFullByPackAndId) {
  Rule rule;
  rule.pack = "common-practice";
  rule.id = "drift";
  EXPECT_EQ(rule.full_name(), "common-practice/drift");
}

TEST(Rule, HasTheMeasureOfItsSubject) {
  Rule rule;
  rule.of = Subject::pump;
  rule.measure = static_cast<std::size_t>(PumpMeasure::trend);
  EXPECT_EQ(measure_of(rule).name, "trend");
}

TEST(Rule, WritesItsWordsAsAPackDoes) {
  EXPECT_EQ(to_text(Otherwise::void_), "void");
  EXPECT_EQ(to_text(Absent::skip), "skip");
  EXPECT_EQ(to_text(Standing::common_practice), "common practice");
  EXPECT_EQ(to_text(Base::by_practice), "practice");
}

}  // namespace
}  // namespace driftwarden::rule_test

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
  EXPECT_NEAR(ahead.limit, 0.05, 1e-12);
  EXPECT_NEAR(ahead.beyond_limit, 0.0314468, 1e-7);
  EXPECT_EQ(ahead.rule->full_name(), "own/drift");
}

TEST(DriftAhead, IsNotForetoldByFewerThanFiveUses) {
  EXPECT_TRUE(is_missing(drift({0.01, 0.01, 0.01, 0.01}).within));
  EXPECT_FALSE(is_missing(drift({0.01, 0.01, 0.01, 0.01, 0.01}).within));
  EXPECT_TRUE(is_missing(drift({0.01}).beyond_limit));
}

TEST(DriftAhead, LooksAtTheNarrowestRuleThatVoids) {
  RulesText rules;
  rules.rules = {{Subject::sample, "drift", "within", {"3 %"}, Otherwise::qualify},
                 {Subject::sample, "drift", "within", {"10 %"}},
                 {Subject::sample, "drift", "within", {"0.1 L/min"}}};
  EXPECT_NEAR(drift(ten_uses, rules).limit, 0.05, 1e-12) << "0.1 of 2 L/min";
  EXPECT_NEAR(drift(ten_uses, rules, 0.5).limit, 0.1, 1e-12) << "0.1 of 0.5 L/min are 20 %";
  EXPECT_EQ(drift(ten_uses, RulesText{}).rule, nullptr);
  EXPECT_TRUE(is_missing(drift(ten_uses, RulesText{}).beyond_limit));
}

}  // namespace
}  // namespace driftwarden::drift_ahead_test

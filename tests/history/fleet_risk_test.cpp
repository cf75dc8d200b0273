// SPDX-License-Identifier: MIT
#include "history/fleet_risk.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "statistics/normal_distribution.hpp"
#include "support/drifting_book.hpp"

namespace driftwarden::fleet_risk_test {
namespace {

constexpr Day as_of = 20773;  // 2026-11-16

// Forty drifts from -7.8 to 7.8 %, 0.4 % apart; three lie on the limit.
std::vector<double> forty_drifts() {
  std::vector<double> drifts;
  for (int i = 0; i < 40; ++i) drifts.push_back(0.4 * i - 7.8);
  drifts[0] = 5.0;
  return drifts;
}

RulesText drifts_within(const std::string& limit, Otherwise otherwise = Otherwise::void_) {
  return {{{Subject::sample, "drift", "within", {limit}, otherwise}}};
}

class FleetRiskOf : public ::testing::Test {
 protected:
  JudgedBook judged_{test::drifting_book(forty_drifts()), drifts_within("5 %")};
  RuleRisk only_rule(const RiskTrial& trial = {}) const {
    const FleetRisk risk = fleet_risk(judged_.screening(), as_of, trial);
    return risk.rules.size() == 1 ? risk.rules[0] : RuleRisk{};
  }
};

TEST_F(FleetRiskOf, ABookReckonsItsPaceByTheDaysOfItsSamples) {
  const FleetRisk risk = fleet_risk(judged_.screening(), as_of, {});
  EXPECT_EQ(risk.to - risk.from, 39);
  EXPECT_NEAR(only_rule().a_year, 365, 1e-9);  // one a day
  EXPECT_EQ(only_rule().held, 40U);
}

// derived: what lies beyond the limit is the mean of the tails of the normal distributions.
TEST_F(FleetRiskOf, ABookHasAsManyBeyondAsItsTrueValues) {
  const RuleRisk risk = only_rule();
  double beyond = 0;
  for (const TrueValuePart& part : risk.prior.parts)
    beyond += normal_cdf((-0.05 - part.mean) / part.s) + normal_cdf((part.mean - 0.05) / part.s);
  ASSERT_EQ(risk.years.size(), 4U);
  EXPECT_NEAR(risk.years[0].beyond, 365 * beyond / 40, 1e-9);
  for (const YearOfRisk& year : risk.years) EXPECT_NEAR(year.beyond, risk.years[0].beyond, 1e-9);
}

// derived: with true values even about the limit, what passes beyond it is the density there times u/√(2π) at either
// end: E(max(0, error)) of a normal error.
TEST_F(FleetRiskOf, ABookPassesWhatItsErrorsCarryOverTheLimit) {
  const RuleRisk risk = only_rule();
  double density = 0;  // at both ends
  for (const TrueValuePart& part : risk.prior.parts) {
    for (const double end : {-0.05, 0.05})
      density +=
          std::exp(-std::pow((end - part.mean) / part.s, 2) / 2) / (part.s * std::sqrt(2 * std::numbers::pi) * 40);
  }
  const double expected = 365 * density * risk.u_median / std::sqrt(2 * std::numbers::pi);
  EXPECT_NEAR(risk.years[0].passed / expected, 1, 0.01);
  EXPECT_NEAR(risk.years[0].not_kept / expected, 1, 0.01);
  EXPECT_EQ(risk.years[0].held_up, 0);
}

TEST_F(FleetRiskOf, AGuardBandPassesFewerBadOnesAndHoldsUpGoodOnes) {
  const RuleRisk risk = only_rule({1, 2});
  EXPECT_LT(risk.years[1].passed, 0.01 * risk.years[0].passed);  // U is many u with so few degrees of freedom
  EXPECT_GT(risk.years[1].held_up, risk.years[0].not_kept);
  EXPECT_EQ(risk.years[1].not_kept, risk.years[0].not_kept);
}

TEST_F(FleetRiskOf, MoreReadingsMistakeFewerEitherWay) {
  const RuleRisk risk = only_rule({1, 2});
  EXPECT_EQ(risk.years[2].more, 2U);
  EXPECT_NEAR(risk.years[2].passed / risk.years[0].passed, std::sqrt(0.5), 0.01);  // four readings for two
  EXPECT_NEAR(risk.years[2].not_kept / risk.years[0].not_kept, std::sqrt(0.5), 0.01);
  EXPECT_LT(risk.years[3].held_up, 0.5 * risk.years[1].held_up);
}

TEST_F(FleetRiskOf, NothingElseTriedIsTheBookAsItIs) {
  EXPECT_EQ(only_rule({0, 0}).years.size(), 1U);
  EXPECT_EQ(only_rule({1, 0}).years.size(), 2U);
  EXPECT_EQ(only_rule({0, 2}).years.size(), 2U);
}

TEST_F(FleetRiskOf, ReadingsByThemselvesCountWhatLiesOnTheLimitAsHalfBeyond) {
  const RiskOfReadings readings = only_rule().readings;
  EXPECT_EQ(readings.pass, 27U);  // -5.0 to 5.0 in steps of 0.4, and one more at 5.0
  EXPECT_EQ(readings.fail, 13U);
  EXPECT_NEAR(readings.passed_beyond, 3 * 0.5, 0.5);  // and Student's tails of so few readings
  EXPECT_GT(readings.passed_beyond, 3 * 0.5);
  EXPECT_LT(readings.failed_within, 0.5);
}

TEST(FleetRisk, IsOfRulesAboutReadingsThatHaveConsequences) {
  const BookText text = test::drifting_book(forty_drifts());
  const auto rules_of = [&](const RulesText& rules) {
    return fleet_risk(JudgedBook(text, rules).screening(), as_of, {}).rules.size();
  };
  EXPECT_EQ(rules_of(drifts_within("5 %", Otherwise::note)), 0U);
  EXPECT_EQ(rules_of(drifts_within("5 %", Otherwise::qualify)), 1U);
  EXPECT_EQ(rules_of({{{Subject::sample, "minutes", "at_least", {"60 min"}}}}), 0U);
  EXPECT_EQ(rules_of({{{Subject::sample, "pre.count", "at_least", {"1"}}}}), 0U);
}

TEST(FleetRisk, OfFewSamplesSaysNothingOfAYear) {
  const JudgedBook judged(test::drifting_book({1, 2, 3}), drifts_within("5 %"));
  const FleetRisk risk = fleet_risk(judged.screening(), as_of, {});
  ASSERT_EQ(risk.rules.size(), 1U);
  EXPECT_TRUE(risk.rules[0].years.empty());
  EXPECT_EQ(risk.rules[0].readings.pass, 3U);
}

TEST(FleetRisk, KnowsNothingOfWhatComesLater) {
  const JudgedBook judged(test::drifting_book(forty_drifts()), drifts_within("5 %"));
  const FleetRisk risk = fleet_risk(judged.screening(), 20697 + 24, {});
  EXPECT_EQ(risk.to, 20697 + 24);
  EXPECT_EQ(risk.rules[0].held, 25U);
  EXPECT_TRUE(fleet_risk(judged.screening(), 20000, {}).rules.empty());
}

TEST(FleetRisk, LeavesOutWhatHasNoUncertainty) {
  BookText text = test::drifting_book(forty_drifts());
  text.samples += "T1,P2,2026-09-01T08:00,2026-09-01T16:00,2\n";
  text.readings += "2026-09-01T07:30,pre,T1,V2,2\n2026-09-01T16:10,post,T1,V2,2\n";
  const JudgedBook judged(text, drifts_within("5 %"));
  const RuleRisk risk = fleet_risk(judged.screening(), as_of, {}).rules.at(0);
  EXPECT_EQ(risk.without_u, 1U);
  EXPECT_EQ(risk.held, 40U);
}

}  // namespace
}  // namespace driftwarden::fleet_risk_test

// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/decision_risk.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/book_text.hpp"

namespace driftwarden::decision_risk_test {
namespace {

// input: margins and uncertainties, where nothing else is said.

constexpr double inf = std::numeric_limits<double>::infinity();

Limit between(double low, double high) {
  Limit limit;
  limit.low = low;
  limit.high = high;
  return limit;
}

// memory: JCGM 106:2012, examples of clause 7, inputs and two-digit results (0.92, 0.99, 0.66, 107 km/h). Further
// digits are computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DecisionRisk, GivesTheConformanceProbabilitiesOfTheGuide) {
  EXPECT_NEAR(1 - probability_beyond(between(-inf, -5.40), -5.47, 0.05), 0.91924, 5e-6);    // Zener voltage, V
  EXPECT_NEAR(1 - probability_beyond(between(490, inf), 509.7, 8.6), 0.98901, 5e-6);        // burst pressure, kPa
  EXPECT_NEAR(1 - probability_beyond(between(12.5, 16.3), 13.6, 1.8), 0.66263, 5e-6);       // oil viscosity
  EXPECT_NEAR(probability_beyond(between(-inf, 100), 106.59, 0.02 * 106.59), 0.999, 2e-5);  // speed, km/h
}

// own input: the normal distribution at one u, computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DecisionRisk, OnALimitIsOneHalfAndBeyondItIsMore) {
  EXPECT_NEAR(probability_beyond(between(-0.05, 0.05), 0.05, 0.001), 0.5, 1e-12);
  EXPECT_NEAR(probability_beyond(between(-0.05, 0.05), -0.051, 0.001), 0.841345, 1e-6);
}

// own input: the normal distribution at one u, computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DecisionRisk, AddsBothEnds) { EXPECT_NEAR(probability_beyond(between(-1, 1), 0, 1), 2 * 0.158655, 1e-6); }

TEST(DecisionRisk, OfWhatIsNotKnownIsMissing) {
  EXPECT_TRUE(is_missing(probability_beyond(between(-1, 1), 0, missing)));
  EXPECT_TRUE(is_missing(probability_beyond(between(-1, 1), 0, 0)));
  EXPECT_TRUE(is_missing(probability_beyond(between(-1, 1), missing, 1)));
}

KnownTo known_to_expanded(double expanded) { return {expanded / 2, expanded, true}; }

Judgement met_with_margin(double margin) { return {Outcome::met, 0.05 - margin, 0.05, margin}; }

TEST(DecisionRisk, QualifiesWhatLiesInTheGuardBandAndKeepsWhatLiesOnItsEdge) {
  EXPECT_EQ(guarded(met_with_margin(0.010), 1, known_to_expanded(0.010)), Outcome::met);
  EXPECT_EQ(guarded(met_with_margin(0.0099), 1, known_to_expanded(0.010)), Outcome::qualified);
  EXPECT_EQ(guarded(met_with_margin(0.0099), 0.5, known_to_expanded(0.010)), Outcome::met);
  EXPECT_EQ(guarded(met_with_margin(0.0099), 0, known_to_expanded(0.010)), Outcome::met);
}

// JCGM 106:2012, 8.3.3: a guard band is a multiple of U; without U there is none to keep.
TEST(DecisionRisk, QualifiesWhatIsMetWhereTheUncertaintyCantBeStated) {
  EXPECT_EQ(guarded(met_with_margin(0.04), 1, known_to_expanded(missing)), Outcome::qualified);
  EXPECT_EQ(guarded(met_with_margin(0.04), 0, known_to_expanded(missing)), Outcome::met);
  EXPECT_EQ(guarded(met_with_margin(0.04), 1, {}), Outcome::met);  // a count of readings has no uncertainty
}

TEST(DecisionRisk, GuardsNothingThatIsNotMet) {
  EXPECT_EQ(guarded({Outcome::void_, 0.06, 0.05, -0.01}, 1, known_to_expanded(0.010)), Outcome::void_);
  EXPECT_EQ(guarded({Outcome::note, 0.06, 0.05, -0.01}, 1, known_to_expanded(0.010)), Outcome::note);
  EXPECT_EQ(guarded({Outcome::met, missing, missing, missing}, 1, known_to_expanded(0.010)), Outcome::met);
}

// Guard bands and the worst risk at their edge: 1 U below 2.5 %, 0.83 U below 5 %, 1.5 U below 0.16 % (ILAC-G8:09/2019,
// table of decision rules; the figures from memory, checked by u = U / 2).
TEST(DecisionRisk, TellsTheWorstRiskOfTheRuleInForce) {
  EXPECT_NE(decision_rule_text(0).find("up to 50 %"), std::string::npos);
  EXPECT_NE(decision_rule_text(1).find("about 2.5 %"), std::string::npos) << decision_rule_text(1);
  EXPECT_NE(decision_rule_text(0.83).find("about 5.2 %"), std::string::npos) << decision_rule_text(0.83);
  EXPECT_NE(decision_rule_text(1.5).find("about 0.16 %"), std::string::npos) << decision_rule_text(1.5);
}

SampleAssessment flows() {
  SampleAssessment figures;
  figures.pre_l_min = 2.0;
  figures.post_l_min = 1.9;
  figures.nominal_l_min = 1.6;
  return figures;
}

Budget known() {
  Budget budget;
  budget.of[0] = {0.002, 8, 2.3, 0.0046};
  budget.of[1] = {0.016, 99, 2, 0.032};
  budget.of[2] = {5, 99, 2, 10};
  budget.of[3] = {4, 99, 2, 8};
  constexpr double infinite = std::numeric_limits<double>::infinity();
  budget.lines = {{BudgetSource::pre_resolution, 0, 0.003, Distribution::rectangular, infinite, {}, 1, 0},
                  {BudgetSource::post_resolution, 0, 0.004, Distribution::rectangular, infinite, {}, 0, 1},
                  {BudgetSource::certificate, 0, 0.01, Distribution::normal, infinite, {}, 2.0, 1.9}};
  return budget;
}

KnownTo of_rule(const RuleText& rule) { return known_to(rule.rule(), flows(), known()); }

TEST(DecisionRisk, KnowsEachMeasureThatABudgetIsAbout) {
  EXPECT_EQ(of_rule({Subject::sample, "drift", "within", {"5 %"}}).u, 0.002);
  EXPECT_EQ(of_rule({Subject::sample, "flow", "at_least", {"1 L/min"}}).expanded, 0.032);
  EXPECT_EQ(of_rule({Subject::sample, "volume", "at_least", {"400 L"}}).u, 5);
  EXPECT_EQ(of_rule({Subject::sample, "volume.reference", "at_least", {"400 L"}}).u, 4);
  EXPECT_TRUE(is_missing(of_rule({Subject::sample, "minutes", "at_least", {"60 min"}}).u));
  EXPECT_TRUE(is_missing(of_rule({Subject::set, "flow", "at_least", {"1 L/min"}}).u));
}

// derived: of post − pre, 0.003 and 0.004 L/min, and 1 % of both flows, of which 1 % of their difference is left.
const double u_of_change = std::sqrt(0.003 * 0.003 + 0.004 * 0.004 + 0.001 * 0.001);

TEST(DecisionRisk, PutsTheUncertaintyOnTheBaseOfTheRule) {
  RuleText rule{Subject::sample, "drift", "within", {"5 %"}};
  rule.base = Base::nominal;
  EXPECT_NEAR(of_rule(rule).u, u_of_change / 1.6, 1e-12);
  EXPECT_NEAR(of_rule({Subject::sample, "flow.deviation", "within", {"5 %"}}).u, 0.016 / 1.6, 1e-12);
}

TEST(DecisionRisk, OfAnAbsoluteLimitIsInItsUnit) {
  EXPECT_NEAR(of_rule({Subject::sample, "drift", "within", {"0.1 L/min"}}).u, u_of_change, 1e-12);
  EXPECT_NEAR(of_rule({Subject::sample, "flow.deviation", "within", {"0.1 L/min"}}).u, 0.016, 1e-12);
}

}  // namespace
}  // namespace driftwarden::decision_risk_test

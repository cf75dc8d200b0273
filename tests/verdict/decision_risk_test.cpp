// SPDX-License-Identifier: MIT
#include "verdict/decision_risk.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"
#include "support/book_text.hpp"
#include "verdict/sample_judge.hpp"

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

double normal_beyond(const Limit& limit, double figure, double u) {
  return probability_beyond(limit, figure, known_by(u, inf));
}

// memory: JCGM 106:2012, examples of clause 7, inputs and two-digit results (0.92, 0.99, 0.66, 107 km/h). Further
// digits are computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DecisionRisk, GivesTheConformanceProbabilitiesOfTheGuide) {
  EXPECT_NEAR(1 - normal_beyond(between(-inf, -5.40), -5.47, 0.05), 0.91924, 5e-6);    // Zener voltage, V
  EXPECT_NEAR(1 - normal_beyond(between(490, inf), 509.7, 8.6), 0.98901, 5e-6);        // burst pressure, kPa
  EXPECT_NEAR(1 - normal_beyond(between(12.5, 16.3), 13.6, 1.8), 0.66263, 5e-6);       // oil viscosity
  EXPECT_NEAR(normal_beyond(between(-inf, 100), 106.59, 0.02 * 106.59), 0.999, 2e-5);  // speed, km/h
}

// own input: the normal distribution at one u, computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DecisionRisk, OnALimitIsOneHalfAndBeyondItIsMore) {
  EXPECT_NEAR(normal_beyond(between(-0.05, 0.05), 0.05, 0.001), 0.5, 1e-12);
  EXPECT_NEAR(normal_beyond(between(-0.05, 0.05), -0.051, 0.001), 0.841345, 1e-6);
}

// own input: the normal distribution at one u, computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DecisionRisk, AddsBothEnds) { EXPECT_NEAR(normal_beyond(between(-1, 1), 0, 1), 2 * 0.158655, 1e-6); }

// own input: Student's t distribution, computed with SciPy 1.10 by tests/support/computed_records.py. At two u from the
// limit and four degrees of freedom the normal distribution would say 0.0228.
TEST(DecisionRisk, IsOfStudentsTWhereUWasEstimated) {
  EXPECT_NEAR(probability_beyond(between(-inf, 1), 0, known_by(0.5, 4)), 0.0580583, 5e-8);
  EXPECT_NEAR(probability_beyond(between(-1, 1), 0, known_by(1, 4.9)), 0.373901, 5e-7);  // cut down to 4
}

TEST(DecisionRisk, OfWhatIsNotKnownIsMissing) {
  EXPECT_TRUE(is_missing(normal_beyond(between(-1, 1), 0, missing)));
  EXPECT_TRUE(is_missing(normal_beyond(between(-1, 1), 0, 0)));
  EXPECT_TRUE(is_missing(normal_beyond(between(-1, 1), missing, 1)));
}

KnownTo known_to_expanded(double expanded) { return {expanded / 2, expanded, inf, true}; }

Judgement met_with_margin(double margin) { return {Outcome::met, 0.05 - margin, 0.05, margin}; }

TEST(DecisionRisk, QualifiesWhatLiesInTheGuardBandAndKeepsWhatLiesOnItsEdge) {
  EXPECT_EQ(guarded(met_with_margin(0.010), 1, known_to_expanded(0.010), Otherwise::void_), Outcome::met);
  EXPECT_EQ(guarded(met_with_margin(0.0099), 1, known_to_expanded(0.010), Otherwise::void_), Outcome::qualified);
  EXPECT_EQ(guarded(met_with_margin(0.0099), 0.5, known_to_expanded(0.010), Otherwise::void_), Outcome::met);
  EXPECT_EQ(guarded(met_with_margin(0.0099), 0, known_to_expanded(0.010), Otherwise::void_), Outcome::met);
}

// JCGM 106:2012, 8.3.3: a guard band is a multiple of U; without U there is none to keep.
TEST(DecisionRisk, QualifiesWhatIsMetWhereTheUncertaintyCantBeStated) {
  EXPECT_EQ(guarded(met_with_margin(0.04), 1, known_to_expanded(missing), Otherwise::void_), Outcome::qualified);
  EXPECT_EQ(guarded(met_with_margin(0.04), 0, known_to_expanded(missing), Otherwise::void_), Outcome::met);
  EXPECT_EQ(guarded(met_with_margin(0.04), 1, {}, Otherwise::void_),
            Outcome::met);  // a count of readings has no uncertainty
}

TEST(DecisionRisk, GuardsNothingThatIsNotMet) {
  EXPECT_EQ(guarded({Outcome::void_, 0.06, 0.05, -0.01}, 1, known_to_expanded(0.010), Otherwise::void_),
            Outcome::void_);
  EXPECT_EQ(guarded({Outcome::note, 0.06, 0.05, -0.01}, 1, known_to_expanded(0.010), Otherwise::void_), Outcome::note);
  EXPECT_EQ(guarded({Outcome::met, missing, missing, missing}, 1, known_to_expanded(0.010), Otherwise::void_),
            Outcome::met);
}

constexpr double some_dofs[] = {1, 2, 3, 4, 7, 12, 30, 100, 1e4, inf};

// own input: the tails at the guarded limit, computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(DecisionRisk, OfOneEndIsTheWorstOverAllDegreesOfFreedom) {
  EXPECT_NEAR(worst_risk_at_one_end(0.5), 0.163548, 5e-7);
  EXPECT_NEAR(worst_risk_at_one_end(0.83), 0.0518930, 5e-8);
  EXPECT_NEAR(worst_risk_at_one_end(1), 0.025, 1e-12);
  EXPECT_NEAR(worst_risk_at_one_end(1.5), 0.0166857, 5e-8);
  for (const double guard : {0.0, 0.5, 0.83, 1.0, 1.5, 2.0}) {
    for (const double dof : some_dofs) {
      const KnownTo known = known_by(1, dof);
      const double at_the_edge = probability_beyond(between(-inf, 0), -guard * known.expanded, known);
      EXPECT_LE(at_the_edge, worst_risk_at_one_end(guard) * (1 + 1e-9)) << guard << " " << dof;
    }
  }
}

// However narrow the limit: what a guard band lets pass between two ends lies beyond either with at most twice that.
TEST(DecisionRisk, KeepsItsPromiseForLimitsWithTwoEnds) {
  double worst = 0;
  for (const double dof : some_dofs) {
    for (const double half : {1.0, 1.05, 1.5, 3.0}) {
      const KnownTo known = known_by(1, dof);
      const double end = half * known.expanded;
      for (double y = -end; y <= end; y += end / 50) {
        const double margin = end - std::abs(y);
        if (guarded({Outcome::met, y, end, margin}, 1, known, Otherwise::void_) != Outcome::met) continue;
        worst = std::max(worst, probability_beyond(between(-end, end), y, known));
      }
    }
  }
  EXPECT_LE(worst, 2 * worst_risk_at_one_end(1) * (1 + 1e-9));
  EXPECT_GT(worst, 1.9 * worst_risk_at_one_end(1));  // and it is reached
}

// Beyond reach the probability is below that of a near miss, for any degrees of freedom and both ends alike near.
TEST(DecisionRisk, OutOfReachIsOnlyWhatNeedNotBeTold) {
  for (const double dof : some_dofs) {
    const KnownTo known = known_by(1, dof);
    const double margin = 2.0101 * known.expanded;
    EXPECT_FALSE(is_within_reach({Outcome::met, 0, margin, margin}, known, 0));
    EXPECT_TRUE(is_within_reach({Outcome::void_, 0, margin, margin}, known, 0));
    EXPECT_TRUE(is_within_reach({Outcome::met, 0, margin, margin}, known, 3));
    EXPECT_LT(probability_beyond(between(-margin, margin), 0, known), near_miss_probability) << dof;
  }
}

std::string text_under(const std::string& guard, const std::vector<RuleText>& rules) {
  BookText text = worked_book();
  text.settings += "[decision]\nguard = " + guard + "\n";
  return decision_rule_text(JudgedBook(text, RulesText{rules}).screening());
}

TEST(DecisionRisk, IsPromisedForTheWorstRuleInForce) {
  const RuleText drift{Subject::sample, "drift", "within", {"5 %"}};
  const RuleText volume{Subject::sample, "volume", "at_least", {"400 L"}};
  EXPECT_NE(text_under("0", {drift}).find("up to 50 %"), std::string::npos);
  const std::string one_end = text_under("1", {volume});
  EXPECT_NE(one_end.find("at most 2.5 %"), std::string::npos) << one_end;
  EXPECT_EQ(one_end.find("either of two"), std::string::npos) << one_end;
  const std::string two_ends = text_under("1", {volume, drift});
  EXPECT_NE(two_ends.find("beyond either of two with at most 5.0 % (own/drift)"), std::string::npos) << two_ends;
  EXPECT_NE(text_under("0.83", {drift}).find("at most 5.2 %"), std::string::npos);
  EXPECT_NE(text_under("1.5", {volume}).find("at most 1.7 %"), std::string::npos);
}

TEST(DecisionRisk, NamesOnceWhatStandsUnguarded) {
  const RuleText spread{Subject::sample, "pre.rsd", "at_most", {"2 %"}};
  const RuleText habit{Subject::pump, "drift.mean", "within", {"2 %"}};
  const RuleText count{Subject::sample, "pre.count", "at_least", {"3"}};
  EXPECT_NE(text_under("1", {spread, count, habit})
                .find("Unguarded, for no uncertainty of them is stated: pre.rsd of a sample, drift.mean of a pump"),
            std::string::npos);
  EXPECT_EQ(text_under("1", {count}).find("probability"), std::string::npos);
  EXPECT_EQ(text_under("1", {count}).find("Unguarded"), std::string::npos);
}

TEST(DecisionRisk, IsNeverMoreThanOne) {
  for (const double dof : {1.0, 2.0, 3.0, 7.0, 30.0, inf}) {
    for (double y = -3; y <= 3; y += 0.01) {
      EXPECT_LE(probability_beyond(between(0, 0), y, known_by(1, dof)), 1) << y << " " << dof;
    }
  }
}

TEST(DecisionRisk, MakesNoMoreOfANoteThanANote) {
  EXPECT_EQ(guarded(met_with_margin(0.0099), 1, known_to_expanded(0.010), Otherwise::note), Outcome::note);
  EXPECT_EQ(guarded(met_with_margin(0.04), 1, known_to_expanded(missing), Otherwise::note), Outcome::note);
  EXPECT_EQ(guarded(met_with_margin(0.0099), 1, known_to_expanded(0.010), Otherwise::qualify), Outcome::qualified);
}

TEST(DecisionRisk, IsWithinReachAtItsEnd) {
  EXPECT_TRUE(is_within_reach({Outcome::met, 0, 2.01, 2.01}, {0.5, 1, inf, true}, 0));
  EXPECT_FALSE(is_within_reach({Outcome::met, 0, 2.02, 2.02}, {0.5, 1, inf, true}, 0));
}

TEST(DecisionRisk, IsToldOfWhatIsFarFromItsLimitOnlyWhereAsked) {
  for (const bool is_told_always : {false, true}) {
    Finding finding;
    finding.judgement = {Outcome::met, 0, 0.05, 0.05};
    Rule rule;
    rule.limit = between(-0.05, 0.05);
    weigh(finding, rule, known_by(0.001, inf), 0, is_told_always);
    EXPECT_EQ(is_missing(finding.probability_beyond), !is_told_always);
    EXPECT_NEAR(finding.expanded, 0.00196, 5e-6);  // derived: 1.96 times 0.001
  }
}

TEST(DecisionRisk, NamesTheFirstOfTheRulesWithTwoEnds) {
  const RuleText drift{Subject::sample, "drift", "within", {"5 %"}};
  const RuleText deviation{Subject::sample, "pre.deviation", "within", {"5 %"}};
  const std::string text = text_under("0.83", {drift, deviation});
  EXPECT_NE(text.find("a guard band of 0.83 U:"), std::string::npos) << text;
  EXPECT_NE(text.find("(own/drift)"), std::string::npos) << text;
  EXPECT_EQ(text.find("pre.deviation"), std::string::npos) << text;
  const RuleText minutes{Subject::sample, "minutes", "at_most", {"480 min"}};
  EXPECT_EQ(text_under("1", {minutes}).find("either of two"), std::string::npos);
}

TEST(DecisionRisk, LeansOnWholeDegreesOfFreedom) { EXPECT_EQ(known_by(1, 1.5).dof, 1); }

TEST(DecisionRisk, IsToldOfWhatIsNearItsLimit) {
  Finding finding;
  finding.judgement = {Outcome::met, 0.0495, 0.05, 0.0005};
  Rule rule;
  rule.limit = between(-0.05, 0.05);
  weigh(finding, rule, known_by(0.001, inf), 0, false);
  EXPECT_GT(finding.probability_beyond, 0.025);
}

}  // namespace
}  // namespace driftwarden::decision_risk_test

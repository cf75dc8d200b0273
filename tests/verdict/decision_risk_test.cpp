// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/decision_risk.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"
#include "driftwarden/verdict/screening.hpp"
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
        if (guarded({Outcome::met, y, end, margin}, 1, known) != Outcome::met) continue;
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

BookText measured_book() {
  BookText text = worked_book();
  text.samples =
      "sample,pump,sampler,nominal [L/min],started,stopped,temperature [°C],pressure [kPa]\n"
      "S1,P1,cyclone,1.9,2026-09-21T08:00,2026-09-21T16:00,23,98.60\n";
  replace_all(text.readings, "reading [L/min]\n", "reading [L/min],temperature [°C],pressure [kPa]\n");
  replace_all(text.readings, "\n2026", ",22,98.5\n2026");
  replace_all(text.readings, "reading [L/min],temperature [°C],pressure [kPa],22,98.5\n",
              "reading [L/min],temperature [°C],pressure [kPa]\n");
  text.readings.insert(text.readings.size() - 1, ",22,98.5");
  text.readings += "2026-09-21T12:00,field,S1,V1,1.930,22,98.5\n2026-09-21T12:01,field,S1,V1,1.934,22,98.5\n";
  return text;
}

// The measured book, judged by no rule; known_to of any.
class Known {
 public:
  explicit Known(const BookText& text = measured_book(), std::vector<PracticeChoice> practice = {})
      : book_(text, RulesText{{}, {cyclone()}, std::move(practice)}), result_(book_.result("S1")) {}

  KnownTo to(const Rule& rule) const {
    const SampleContext context{book_.screening().basis(), figures(), 0, &result_.budget};
    return known_to(rule, context, figures().pre_set(), figures().rows.front());
  }
  KnownTo to(Subject of, std::size_t measure) const {
    Rule rule;
    rule.of = of;
    rule.measure = measure;
    return to(rule);
  }
  KnownTo to(const RuleText& text) const { return to(text.rule()); }
  const AssessmentBasis& basis() const { return book_.screening().basis(); }
  const SampleAssessment& figures() const { return *result_.figures; }
  const Budget& budget() const { return result_.budget; }

 private:
  static Sampler cyclone() {
    Sampler sampler;
    sampler.name = "cyclone";
    sampler.cut_exponent = 0.9;
    return sampler;
  }
  JudgedBook book_;
  const SampleResult& result_;
};

// The catalogue and what is worked out say the same of every measure.
TEST(DecisionRisk, KnowsEveryMeasureOfWhichTheCatalogueSaysSo) {
  const Known known;
  for (const Subject of : {Subject::sample, Subject::set, Subject::reading}) {
    for (std::size_t m = 0; m < measures(of).size(); ++m) {
      const Measure& measure = measures(of)[m];
      const KnownTo to = known.to(of, m);
      const bool is_stated = measure.knowledge == Knowledge::stated;
      EXPECT_EQ(to.is_stated, is_stated) << measure.name;
      EXPECT_EQ(to.expanded > to.u, is_stated) << measure.name;
    }
  }
}

// own input: the worked budget's flows, each with its own inputs alone; computed with NumPy 1.24 by
// tests/support/computed_records.py.
TEST(DecisionRisk, OfAFlowIsThatOfItsOwnInputs) {
  const Known known;
  EXPECT_NEAR(known.to({Subject::sample, "pre.flow", "at_least", {"1 L/min"}}).u, 0.010141665, 5e-9);
  EXPECT_NEAR(known.to({Subject::sample, "post.flow", "at_least", {"1 L/min"}}).u, 0.009870804, 5e-9);
  EXPECT_NEAR(known.to({Subject::sample, "pre.deviation", "within", {"5 %"}}).u, 0.010141665 / 1.9, 5e-9);
  EXPECT_NEAR(known.to({Subject::sample, "post.deviation", "within", {"0.1 L/min"}}).u, 0.009870804, 5e-9);
  EXPECT_NEAR(known.to({Subject::set, "flow", "at_least", {"1 L/min"}}).u, 0.010141665, 5e-9);
}

TEST(DecisionRisk, OfAFlowNeedsNoOtherSet) {
  BookText text = measured_book();
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T16:10"));
  const Known known(text);
  EXPECT_NEAR(known.to({Subject::sample, "pre.flow", "at_least", {"1 L/min"}}).u, 0.010141665, 5e-9);
  EXPECT_TRUE(is_missing(known.to({Subject::sample, "post.flow", "at_least", {"1 L/min"}}).u));
  EXPECT_TRUE(known.to({Subject::sample, "post.flow", "at_least", {"1 L/min"}}).is_stated);
}

// A field set in the place of the post set would make this drift.
TEST(DecisionRisk, OfAFieldDeviationIsThatOfADriftToTheFieldSet) {
  BookText text = measured_book();
  const std::size_t post = text.readings.find("2026-09-21T16:10");
  const std::size_t field = text.readings.find("2026-09-21T12:00");
  text.readings = text.readings.substr(0, post) + text.readings.substr(field);
  replace_all(text.readings, "T12:0", "T16:1");
  replace_all(text.readings, "field", "post");
  const KnownTo expected = Known(text).to({Subject::sample, "drift", "within", {"5 %"}});
  const KnownTo found = Known().to({Subject::sample, "field.deviation", "within", {"5 %"}});
  EXPECT_NEAR(found.u, expected.u, 1e-12);
  EXPECT_EQ(found.dof, expected.dof);
}

TEST(DecisionRisk, OfADeviationFromTheMeanIsHalfThatOfADrift) {
  RuleText drift{Subject::sample, "drift", "within", {"5 %"}};
  RuleText deviation{Subject::sample, "pre.deviation", "within", {"5 %"}};
  drift.base = deviation.base = Base::mean;
  EXPECT_NEAR(Known().to(deviation).u, Known().to(drift).u / 2, 1e-15);
  deviation.base = Base::pre;
  EXPECT_EQ(Known().to(deviation).u, 0);
}

// Start and stop are each known to half a minute: √2 · 0.5 / √3 min. Temperatures within 2 K, pressures within 0.3 kPa.
TEST(DecisionRisk, OfTimesAndConditionsIsByTheirHalfWidths) {
  const Known known;
  EXPECT_NEAR(known.to({Subject::sample, "minutes", "at_least", {"60 min"}}).u, std::sqrt(2.0 / 3) * 0.5, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "temperature.change", "within", {"5 K"}}).u, std::sqrt(2.0 / 3) * 2, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "pressure.change", "within", {"1 kPa"}}).u, std::sqrt(2.0 / 3) * 0.3, 1e-12);
  EXPECT_NEAR(known.to({Subject::reading, "temperature", "at_most", {"30 °C"}}).u, 2 / std::sqrt(3), 1e-12);
}

// (P_set - P_own) / P_own moves by 1 / P_own with the one and by -P_set / P_own² with the other pressure.
TEST(DecisionRisk, OfARelativeChangeOfPressureFollowsTheSamplesOwnAboveAndBelowTheLine) {
  BookText text = measured_book();
  replace_all(text.samples, "98.60", "92.00");
  const Known known(text);
  const double own = known.figures().pressure_kpa;
  const double of_set = own + known.figures().pressure_change_kpa;
  ASSERT_GT(std::abs(of_set / own - 1), 0.04);
  EXPECT_NEAR(known.to({Subject::sample, "pressure.change", "within", {"5 %"}}).u,
              0.3 / std::sqrt(3) * std::hypot(1, of_set / own) / own, 1e-12);
}

// A difference quotient of (Q / Q_nominal)^-0.9.
TEST(DecisionRisk, OfACutFollowsTheFlow) {
  const Known known;
  const double flow = known.figures().flow_l_min;
  const auto shift = [](double q) { return std::pow(q / 1.9, -0.9); };
  const double slope = (shift(flow + 1e-5) - shift(flow - 1e-5)) / 2e-5;
  EXPECT_NEAR(known.to({Subject::sample, "cut.shift", "within", {"5 %"}}).u,
              std::abs(slope) * known.budget().about(BudgetFigure::flow).u, 1e-9);
}

TEST(DecisionRisk, PutsTheUncertaintyOnTheBaseOfTheRule) {
  const Known known;
  RuleText rule{Subject::sample, "drift", "within", {"5 %"}};
  rule.base = Base::nominal;
  const double u_of_change = uncertainty_of_change(known.budget(), {-1, 1}).u;
  EXPECT_NEAR(known.to(rule).u, u_of_change / 1.9, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "drift", "within", {"0.1 L/min"}}).u, u_of_change, 1e-12);
  const double u_of_flow = known.budget().about(BudgetFigure::flow).u;
  EXPECT_NEAR(known.to({Subject::sample, "flow.deviation", "within", {"5 %"}}).u, u_of_flow / 1.9, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "flow.deviation", "within", {"0.1 L/min"}}).u, u_of_flow, 1e-12);
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

// What a method agrees on is exact; what was drawn through the sampler is not.
TEST(DecisionRisk, HoldsAConventionalVolumeToItsLimitAsItIs) {
  const auto known = [](const std::string& measure, const std::string& value) {
    JudgedBook book(nominal_book(),
                    {{{Subject::sample, measure, "at_least", {value}}}, {}, {practice("flow_for_volume", "nominal")}});
    const SampleResult& result = book.result("S1");
    const SampleContext context{book.screening().basis(), *result.figures, missing, &result.budget};
    return known_to(book.screening().rules().rules.at(0), context);
  };
  EXPECT_FALSE(known("volume", "400 L").is_stated);
  EXPECT_FALSE(known("flow", "1 L/min").is_stated);
  EXPECT_TRUE(known("flow.deviation", "-5 %").is_stated);
}

// The volume may be formed with the lower or the pre flow: a deviation is that of the mean flow all the same.
TEST(DecisionRisk, OfAFlowDeviationIsThatOfTheMeanFlowWhateverGivesTheVolume) {
  const RuleText deviation{Subject::sample, "flow.deviation", "within", {"5 %"}};
  const KnownTo expected = Known().to(deviation);
  for (const char* flow : {"lower", "pre"}) {
    const Known known(measured_book(), {practice("flow_for_volume", flow)});
    EXPECT_NE(known.budget().about(BudgetFigure::flow).u, Known().budget().about(BudgetFigure::flow).u) << flow;
    EXPECT_NEAR(known.to(deviation).u, expected.u, 1e-12) << flow;
    EXPECT_NEAR(known.to(deviation).expanded, expected.expanded, 1e-12) << flow;
    EXPECT_EQ(known.to(deviation).dof, expected.dof) << flow;
  }
}

// The certificate of one calibrator states no uncertainty: a flow by it can't be known, nor a mean with it.
TEST(DecisionRisk, OfAMeanFlowNeedsBothOfItsFlows) {
  BookText text = measured_book();
  replace_all(text.certificates, "C2,V2,2026-01-05,2,2.004,2.000,0.020,2", "C2,V2,2026-01-05,2,2.004,2.000,,");
  const RuleText deviation{Subject::sample, "flow.deviation", "within", {"5 %"}};
  for (const char* stage : {"pre", "post"}) {
    BookText half = text;
    replace_all(half.readings, std::string(stage) + ",S1,V1", std::string(stage) + ",S1,V2");
    for (const char* flow : {"lower", "pre"}) {
      const KnownTo known = Known(half, {practice("flow_for_volume", flow)}).to(deviation);
      EXPECT_TRUE(is_missing(known.u)) << stage << " " << flow;
      EXPECT_TRUE(known.is_stated);
    }
  }
}

TEST(DecisionRisk, OfAMeanFlowOfOneSetIsNotKnown) {
  BookText text = measured_book();
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T16:10"));
  const RuleText deviation{Subject::sample, "flow.deviation", "within", {"5 %"}};
  EXPECT_TRUE(is_missing(Known(text, {practice("flow_for_volume", "lower")}).to(deviation).u));
}

// A field set by its own two readings, as if it were the post set.
TEST(DecisionRisk, OfAFieldFlowIsThatOfItsOwnReadings) {
  BookText text = measured_book();
  const std::size_t post = text.readings.find("2026-09-21T16:10");
  const std::size_t field = text.readings.find("2026-09-21T12:00");
  text.readings = text.readings.substr(0, post) + text.readings.substr(field);
  replace_all(text.readings, "T12:0", "T16:1");
  replace_all(text.readings, "field", "post");
  const RuleText post_flow{Subject::sample, "post.flow", "at_least", {"1 L/min"}};
  const RuleText field_deviation{Subject::sample, "field.nominal-deviation", "within", {"0.1 L/min"}};
  EXPECT_NEAR(Known().to(field_deviation).u, Known(text).to(post_flow).u, 1e-12);
  EXPECT_NE(Known().to(field_deviation).u, Known().to(post_flow).u);
}

// derived: a difference in L/min is that of the two flows, whichever set it is from; half of it from the mean.
TEST(DecisionRisk, OfADifferenceFromAnotherSetIsThatOfTheChange) {
  const Known known;
  const double u_of_change = uncertainty_of_change(known.budget(), {-1, 1}).u;
  RuleText deviation{Subject::sample, "post.deviation", "within", {"0.1 L/min"}};
  deviation.base = Base::pre;
  EXPECT_NEAR(known.to(deviation).u, u_of_change, 1e-15);
  deviation.base = Base::mean;
  EXPECT_NEAR(known.to(deviation).u, u_of_change / 2, 1e-15);
}

TEST(DecisionRisk, OfAFieldSetFromTheMeanOfPreAndPostIsNotWorkedOut) {
  RuleText deviation{Subject::sample, "field.deviation", "within", {"5 %"}};
  deviation.base = Base::mean;
  EXPECT_TRUE(is_missing(Known().to(deviation).u));
  EXPECT_TRUE(Known().to(deviation).is_stated);
}

// derived: two half widths of 0.3 kPa, and the further of both sets, 92.00 of 98.60 kPa.
TEST(DecisionRisk, OfAChangeOfPressureIsOfTheSetThatIsFurtherOff) {
  BookText text = measured_book();
  for (const char* minute : {"0", "1", "2", "3", "4"}) {
    const std::size_t at = text.readings.find(std::string("2026-09-21T16:1") + minute);
    text.readings.replace(text.readings.find(",98.5", at), 5, ",92.00");
  }
  const RuleText relative{Subject::sample, "pressure.change", "within", {"5 %"}};
  const double expected = 0.3 / std::sqrt(3) * std::hypot(1, 92.0 / 98.6) / 98.6;
  EXPECT_NEAR(Known(text).to(relative).u, expected, 1e-12);
  text.readings.erase(text.readings.find("2026-09-21T07:30"),
                      text.readings.find("2026-09-21T16:10") - text.readings.find("2026-09-21T07:30"));
  EXPECT_NEAR(Known(text).to(relative).u, expected, 1e-12) << "without a pre set";
}

// derived: 3 % of a pressure that only the altitude tells, as a half width.
TEST(DecisionRisk, OfAPressureFromTheAltitudeIsAShareOfIt) {
  BookText text = measured_book();
  replace_all(text.readings, ",22,98.5", ",22,");
  text.settings = "title = \"Quarry\"\ntime_zone = \"UTC\"\n[site]\naltitude = \"1500 m\"\n" +
                  text.settings.substr(text.settings.find("[reference]")) + "altitude_pressure = \"3 %\"\n";
  const Known known(text);
  bool is_from_altitude = false;
  const double kpa = known.basis().calibrators.pressure_kpa(known.figures().rows.front(), is_from_altitude);
  ASSERT_TRUE(is_from_altitude);
  EXPECT_NEAR(known.to({Subject::reading, "pressure", "at_least", {"80 kPa"}}).u, 0.03 * kpa / std::sqrt(3), 1e-12);
}

TEST(DecisionRisk, IsNeverMoreThanOne) {
  for (const double dof : {1.0, 2.0, 3.0, 7.0, 30.0, inf}) {
    for (double y = -3; y <= 3; y += 0.01) {
      EXPECT_LE(probability_beyond(between(0, 0), y, known_by(1, dof)), 1) << y << " " << dof;
    }
  }
}

TEST(DecisionRisk, IsWithinReachAtItsEnd) {
  EXPECT_TRUE(is_within_reach({Outcome::met, 0, 2.01, 2.01}, {0.5, 1, inf, true}, 0));
  EXPECT_FALSE(is_within_reach({Outcome::met, 0, 2.02, 2.02}, {0.5, 1, inf, true}, 0));
}

TEST(DecisionRisk, IsToldOfWhatIsFarFromItsLimitOnlyWhereAsked) {
  for (const bool is_told_always : {false, true}) {
    Finding finding;
    finding.judgement = {Outcome::met, 0, 0.05, 0.05};
    weigh(finding, between(-0.05, 0.05), known_by(0.001, inf), 0, is_told_always);
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

}  // namespace
}  // namespace driftwarden::decision_risk_test

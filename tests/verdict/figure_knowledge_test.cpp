// SPDX-License-Identifier: MIT
#include "verdict/figure_knowledge.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"
#include "support/book_text.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden::figure_knowledge_test {
namespace {

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
    const SampleContext context{book_.screening().basis(), figures(), {}, &result_.budget};
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
    sampler.nominal_l_min = 1.9;
    sampler.cut_exponent = 0.9;
    sampler.cut_um = 4;
    sampler.cut_spread = 1.25;
    sampler.cut_flows_l_min = {1, 3};
    return sampler;
  }
  JudgedBook book_;
  const SampleResult& result_;
};

// The catalogue and what is worked out say the same of every measure.
TEST(FigureKnowledge, KnowsEveryMeasureOfWhichTheCatalogueSaysSo) {
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
TEST(FigureKnowledge, OfAFlowIsThatOfItsOwnInputs) {
  const Known known;
  EXPECT_NEAR(known.to({Subject::sample, "pre.flow", "at_least", {"1 L/min"}}).u, 0.010141665, 5e-9);
  EXPECT_NEAR(known.to({Subject::sample, "post.flow", "at_least", {"1 L/min"}}).u, 0.009870804, 5e-9);
  EXPECT_NEAR(known.to({Subject::sample, "pre.deviation", "within", {"5 %"}}).u, 0.010141665 / 1.9, 5e-9);
  EXPECT_NEAR(known.to({Subject::sample, "post.deviation", "within", {"0.1 L/min"}}).u, 0.009870804, 5e-9);
  EXPECT_NEAR(known.to({Subject::set, "flow", "at_least", {"1 L/min"}}).u, 0.010141665, 5e-9);
}

// own input: the same flow of its own inputs alone; computed with NumPy 1.24 by tests/support/computed_records.py.
TEST(FigureKnowledge, OfAFlowNeedsNoOtherSet) {
  BookText text = measured_book();
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T16:10"));
  const Known known(text);
  EXPECT_NEAR(known.to({Subject::sample, "pre.flow", "at_least", {"1 L/min"}}).u, 0.010141665, 5e-9);
  EXPECT_TRUE(is_missing(known.to({Subject::sample, "post.flow", "at_least", {"1 L/min"}}).u));
  EXPECT_TRUE(known.to({Subject::sample, "post.flow", "at_least", {"1 L/min"}}).is_stated);
}

// A field set in the place of the post set would make this drift.
TEST(FigureKnowledge, OfAFieldDeviationIsThatOfADriftToTheFieldSet) {
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

TEST(FigureKnowledge, OfADeviationFromTheMeanIsHalfThatOfADrift) {
  RuleText drift{Subject::sample, "drift", "within", {"5 %"}};
  RuleText deviation{Subject::sample, "pre.deviation", "within", {"5 %"}};
  drift.base = deviation.base = Base::mean;
  EXPECT_NEAR(Known().to(deviation).u, Known().to(drift).u / 2, 1e-15);
  deviation.base = Base::pre;
  EXPECT_EQ(Known().to(deviation).u, 0);
}

// Start and stop are each known to half a minute: √2 · 0.5 / √3 min. Temperatures within 2 K, pressures within 0.3 kPa.
TEST(FigureKnowledge, OfTimesAndConditionsIsByTheirHalfWidths) {
  const Known known;
  EXPECT_NEAR(known.to({Subject::sample, "minutes", "at_least", {"60 min"}}).u, std::sqrt(2.0 / 3) * 0.5, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "temperature.change", "within", {"5 K"}}).u, std::sqrt(2.0 / 3) * 2, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "pressure.change", "within", {"1 kPa"}}).u, std::sqrt(2.0 / 3) * 0.3, 1e-12);
  EXPECT_NEAR(known.to({Subject::reading, "temperature", "at_most", {"30 °C"}}).u, 2 / std::sqrt(3), 1e-12);
}

// (P_set - P_own) / P_own moves by 1 / P_own with the one and by -P_set / P_own² with the other pressure.
TEST(FigureKnowledge, OfARelativeChangeOfPressureFollowsTheSamplesOwnAboveAndBelowTheLine) {
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
TEST(FigureKnowledge, OfACutFollowsTheFlow) {
  const Known known;
  const double flow = known.figures().flow_l_min;
  const auto shift = [](double q) { return std::pow(q / 1.9, -0.9); };
  const double slope = (shift(flow + 1e-5) - shift(flow - 1e-5)) / 2e-5;
  EXPECT_NEAR(known.to({Subject::sample, "cut.shift", "within", {"5 %"}}).u,
              std::abs(slope) * known.budget().about(BudgetFigure::flow).u, 1e-9);
}

TEST(FigureKnowledge, OfACutSizeIsThatOfItsShift) {
  const Known known;
  EXPECT_NEAR(known.to({Subject::sample, "cut.size", "at_most", {"5 µm"}}).u,
              4 * known.to({Subject::sample, "cut.shift", "within", {"5 %"}}).u, 1e-12);
}

// derived: a difference quotient along the law of an impactor, slip and all.
TEST(FigureKnowledge, OfAnImpactorsCutFollowsTheFlowWithItsSlip) {
  Sampler impactor = cyclone_sampler({});
  impactor.cut_kind = CutKind::impactor;
  JudgedBook book(cyclone_book("1.9"), {{}, {impactor}});
  const SampleAssessment& figures = book.figures("S1");
  const double slope = (cut_at_flow(figures.cut, 1.9001) - cut_at_flow(figures.cut, 1.8999)) / 0.0002;
  EXPECT_NEAR(-exponent_at(figures.cut, figures.cut_um) * figures.cut_um / 1.9, slope, 1e-7);
}

TEST(FigureKnowledge, PutsTheUncertaintyOnTheBaseOfTheRule) {
  const Known known;
  RuleText rule{Subject::sample, "drift", "within", {"5 %"}};
  rule.base = Base::nominal;
  const double u_of_change = uncertainty_of_change(known.budget(), {-1, 1}).u;
  EXPECT_NEAR(known.to(rule).u, u_of_change / 1.9, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "drift", "within", {"0.1 L/min"}}).u, u_of_change, 1e-12);
  const double u_of_flow = known.budget().about(BudgetFigure::flow).u;
  EXPECT_NEAR(known.to({Subject::sample, "flow.deviation", "within", {"5 %"}}).u, u_of_flow / 1.9, 1e-12);
  EXPECT_NEAR(known.to({Subject::sample, "flow.deviation", "within", {"0.1 L/min"}}).u, u_of_flow, 1e-12);
  RuleText from_pre{Subject::sample, "flow.deviation", "within", {"5 %"}};
  from_pre.base = Base::pre;
  EXPECT_NEAR(known.to(from_pre).u, u_of_flow / known.figures().pre_l_min, 1e-12);
}

// What a method agrees on is exact; what was drawn through the sampler is not.
TEST(FigureKnowledge, HoldsAConventionalVolumeToItsLimitAsItIs) {
  const auto known = [](const std::string& measure, const std::string& value) {
    JudgedBook book(nominal_book(),
                    {{{Subject::sample, measure, "at_least", {value}}}, {}, {practice("flow_for_volume", "nominal")}});
    const SampleResult& result = book.result("S1");
    const SampleContext context{book.screening().basis(), *result.figures, {}, &result.budget};
    return known_to(book.screening().rules().rules.at(0), context);
  };
  EXPECT_FALSE(known("volume", "400 L").is_stated);
  EXPECT_FALSE(known("flow", "1 L/min").is_stated);
  EXPECT_TRUE(known("flow.deviation", "-5 %").is_stated);
}

// The volume may be formed with the lower or the pre flow: a deviation is that of the mean flow all the same.
TEST(FigureKnowledge, OfAFlowDeviationIsThatOfTheMeanFlowWhateverGivesTheVolume) {
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
TEST(FigureKnowledge, OfAMeanFlowNeedsBothOfItsFlows) {
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

TEST(FigureKnowledge, OfAMeanFlowOfOneSetIsNotKnown) {
  BookText text = measured_book();
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T16:10"));
  const RuleText deviation{Subject::sample, "flow.deviation", "within", {"5 %"}};
  EXPECT_TRUE(is_missing(Known(text, {practice("flow_for_volume", "lower")}).to(deviation).u));
}

// A field set by its own two readings, as if it were the post set.
TEST(FigureKnowledge, OfAFieldFlowIsThatOfItsOwnReadings) {
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
TEST(FigureKnowledge, OfADifferenceFromAnotherSetIsThatOfTheChange) {
  const Known known;
  const double u_of_change = uncertainty_of_change(known.budget(), {-1, 1}).u;
  RuleText deviation{Subject::sample, "post.deviation", "within", {"0.1 L/min"}};
  deviation.base = Base::pre;
  EXPECT_NEAR(known.to(deviation).u, u_of_change, 1e-15);
  deviation.base = Base::mean;
  EXPECT_NEAR(known.to(deviation).u, u_of_change / 2, 1e-15);
}

// derived: three sets of the same readings by one calibrator, each known to u apart from what they share: the change
// from pre to post has √2 u, the field set from the mean of both √(1 + 1/4 + 1/4) u.
TEST(FigureKnowledge, OfAFieldSetFromTheMeanOfPreAndPostIsOfAllThree) {
  BookText text = measured_book();
  text.readings = text.readings.substr(0, text.readings.find('\n') + 1);
  for (const char* at : {"07:3%,pre", "12:0%,field", "16:1%,post"}) {
    for (const char* reading : {"1,2.000", "2,2.004", "3,1.996"}) {
      std::string row = "2026-09-21T" + std::string(at) + ",S1,V1" + std::string(reading).substr(1) + ",22,98.5\n";
      row[row.find('%')] = *reading;
      text.readings += row;
    }
  }
  RuleText deviation{Subject::sample, "field.deviation", "within", {"0.1 L/min"}};
  deviation.base = Base::mean;
  const double u_of_change = Known(text).to({Subject::sample, "drift", "within", {"0.1 L/min"}}).u;
  EXPECT_GT(u_of_change, 0);
  EXPECT_NEAR(Known(text).to(deviation).u, std::sqrt(0.75) * u_of_change, 1e-12);
  deviation.values = {"5 %"};
  EXPECT_NEAR(Known(text).to(deviation).u, std::sqrt(0.75) * u_of_change / Known(text).figures().pre_l_min, 1e-12);
}

// derived: two half widths of 0.3 kPa, and the further of both sets, 92.00 of 98.60 kPa.
TEST(FigureKnowledge, OfAChangeOfPressureIsOfTheSetThatIsFurtherOff) {
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
TEST(FigureKnowledge, OfAPressureFromTheAltitudeIsAShareOfIt) {
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

// derived: two of five pressures are the altitude's, known to 3 %, three were read, to 0.3 kPa; the sample's own, too.
TEST(FigureKnowledge, OfAPressureThatIsPartlyTheAltitudesIsOfBothShares) {
  BookText text = measured_book();
  for (const char* minute : {"3", "4"}) {
    const std::size_t at = text.readings.find(std::string("2026-09-21T16:1") + minute);
    text.readings.replace(text.readings.find(",98.5", at), 5, ",");
  }
  text.settings = "title = \"Quarry\"\ntime_zone = \"UTC\"\n[site]\naltitude = \"1500 m\"\n" +
                  text.settings.substr(text.settings.find("[reference]")) + "altitude_pressure = \"3 %\"\n";
  const Known known(text);
  const double by_altitude = 0.4 * 0.03 * known.basis().calibrators.site_pressure_kpa().value();
  const double as_read = 0.6 * 0.3;
  EXPECT_NEAR(known.to({Subject::sample, "pressure.change", "within", {"1 kPa"}}).u,
              std::hypot(by_altitude, as_read, 0.3) / std::sqrt(3), 1e-12);
}

// derived: the certificate's error moves the field flow F and the mean m alike and cancels; what is left is each set's
// own u, of F by 1 / m and of pre and post by F / (2 m^2).
TEST(FigureKnowledge, OfARelativeDeviationFromTheMeanFollowsTheFieldFlow) {
  BookText text = measured_book();
  text.readings = text.readings.substr(0, text.readings.find('\n') + 1);
  for (const char* at : {"07:3%,pre,S1,V1,2.0", "12:0%,field,S1,V1,1.6", "16:1%,post,S1,V1,2.0"}) {
    for (const char* reading : {"102", "206", "300"}) {
      std::string row = "2026-09-21T" + std::string(at) + std::string(reading).substr(1) + ",22,98.5\n";
      row[row.find('%')] = *reading;
      text.readings += row;
    }
  }
  RuleText deviation{Subject::sample, "field.deviation", "within", {"5 %"}};
  deviation.base = Base::mean;
  const Known known(text);
  const double mean = known.figures().pre_l_min;
  const double share = farthest_field_set(known.figures(), mean)->flow.mean / mean;
  const double u = known.to({Subject::sample, "drift", "within", {"0.1 L/min"}}).u / std::sqrt(2);
  EXPECT_NEAR(known.to(deviation).u, u * std::sqrt(1 + share * share / 2) / mean, 1e-12);
}

TEST(FigureKnowledge, OfADeviationIsUOnTheSameBase) {
  const Known known;
  EXPECT_NEAR(known.to(RuleText{Subject::sample, "flow.deviation", "within", {"5 %"}}.rule()).expanded,
              known.budget().about(BudgetFigure::flow).expanded / 1.9, 1e-12);
}

}  // namespace
}  // namespace driftwarden::figure_knowledge_test

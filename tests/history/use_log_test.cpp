// SPDX-License-Identifier: MIT
#include "history/use_log.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/book_text.hpp"

namespace driftwarden::use_log_test {
namespace {

// derived: 1.95 after 2.00 L/min is -2.5 %.

constexpr Day in_october = 20742;  // 2026-10-16

TEST(UseLog, HoldsEachSetAndEachUseOnce) {
  const JudgedBook book({});
  const UseLog log = use_log_of(book.screening(), in_october);
  ASSERT_EQ(log.checks.size(), 2U);
  EXPECT_EQ(log.checks[0].stage, Stage::pre);
  EXPECT_NEAR(log.checks[0].flow_l_min, 2.0, 1e-12);
  EXPECT_EQ(log.checks[1].stage, Stage::post);
  ASSERT_EQ(log.uses.size(), 1U);
  EXPECT_NEAR(log.uses[0].drift, -0.025, 1e-12);
  EXPECT_EQ(log.uses[0].n, 2U);
}

TEST(UseLog, HoldsASetOnceThatTwoSamplesLeanOn) {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "S2,P1,2026-09-21T12:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,pump,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,P1,V1,2.000\n"
      "2026-09-21T16:10,post,P1,V1,1.950\n";
  const JudgedBook book(text);
  const UseLog log = use_log_of(book.screening(), in_october);
  EXPECT_EQ(log.checks.size(), 2U);
  EXPECT_EQ(log.uses.size(), 2U);
}

// Written down by turns, as a shared calibrator makes it.
TEST(UseLog, GivesEachPumpItsOwn) {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "S2,P2,2026-09-21T08:00,2026-09-21T12:00\n"
      "S3,P1,2026-09-22T08:00,2026-09-22T12:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T07:32,pre,S2,V1,2.100\n"
      "2026-09-22T07:30,pre,S3,V1,2.010\n";
  const JudgedBook book(text);
  const UseLog log = use_log_of(book.screening(), in_october);
  const Row first = book.book().samples.pump[0];
  const Row second = book.book().samples.pump[1];
  ASSERT_EQ(log.checks_of(first).size(), 2U);
  EXPECT_EQ(log.checks_of(first)[1].sample, 2U);
  ASSERT_EQ(log.uses_of(second).size(), 1U);
  EXPECT_EQ(log.uses_of(second)[0].sample, 1U);
  EXPECT_TRUE(log.uses_of(book.book().readings.calibrator[0]).empty());
}

TEST(UseLog, EndsWithTheDayAskedFor) {
  const JudgedBook book({});
  EXPECT_TRUE(use_log_of(book.screening(), day_from({2026, 9, 20})).checks.empty());
  EXPECT_EQ(use_log_of(book.screening(), day_from({2026, 9, 21})).checks.size(), 2U);
}

TEST(UseLog, MarksAUseVoidWhoseSampleHadAFault) {
  BookText text;
  text.samples = "sample,pump,started,stopped,fault\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,yes\n";
  const JudgedBook book(text);
  EXPECT_TRUE(use_log_of(book.screening(), in_october).uses.at(0).is_void);
}

TEST(UseLog, ShowsASetThatWasStruckOut) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,yes,leak\n"
      "2026-09-21T07:31,pre,S1,V1,2.020,yes,leak\n"
      "2026-09-21T16:10,post,S1,V1,1.950,,\n";
  const JudgedBook book(text);
  const UseLog log = use_log_of(book.screening(), in_october);
  ASSERT_FALSE(log.checks.empty());
  EXPECT_TRUE(log.checks[0].is_void);
  EXPECT_NEAR(log.checks[0].flow_l_min, 2.01, 1e-12);
  EXPECT_EQ(log.checks[0].n, 2U);
}

// Read before midnight under a certificate that shows 10 % too much, and after it under one without an error.
TEST(UseLog, TakesTheCertificateOfEachReadingWhateverTheSetsOther) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n"
      "old,V1,2026-01-05,2,2,2.2\n"
      "new,V1,2026-09-21,2,2,2\n";
  const auto flow = [&text](const std::string& struck_out) {
    text.readings = "taken,stage,sample,calibrator,reading [L/min],void,note\n2026-09-20T23:58,pre,S1,V1,2.2," +
                    struck_out + "\n2026-09-21T00:01,pre,S1,V1,2.1," + struck_out +
                    "\n2026-09-21T16:10,post,S1,V1,1.950,,\n";
    const JudgedBook book(text);
    return use_log_of(book.screening(), in_october).checks.at(0).flow_l_min;
  };
  EXPECT_NEAR(flow(","), 2.05, 1e-12);
  EXPECT_NEAR(flow("yes,leak"), 2.05, 1e-12);
}

TEST(UseLog, TakesTolerancesFromTheRulesOfThePumpsLastSample) {
  const RulesText rules{
      {{Subject::sample, "drift", "within", {"5 %"}}, {Subject::sample, "pre.deviation", "within", {"4 %"}}}};
  const JudgedBook book({}, rules);
  const UseLog log = use_log_of(book.screening(), in_october);
  EXPECT_NEAR(log.tolerances[0].drift.upper, 5, 1e-12);
  EXPECT_NEAR(log.tolerances[0].drift.lower, -5, 1e-12);
  EXPECT_EQ(log.tolerances[0].drift.source, "own/drift");
  EXPECT_NEAR(log.tolerances[0].deviation.upper, 4, 1e-12);
  EXPECT_FALSE(log.tolerances[1].drift.is_stated());
}

TEST(UseLog, TakesTheNarrowerOfTwoTolerancesAtEachEnd) {
  RulesText rules{
      {{Subject::sample, "pre.deviation", "within", {"5 %"}}, {Subject::sample, "pre.deviation", "at_most", {"3 %"}}}};
  std::vector<RuleText>& both = rules.rules;
  const JudgedBook book({}, RulesText{{both[0]}});
  const JudgedBook other({}, RulesText{{both[1]}});
  EXPECT_NEAR(use_log_of(book.screening(), in_october).tolerances[0].deviation.upper, 5, 1e-12);
  const Tolerance upper_only = use_log_of(other.screening(), in_october).tolerances[0].deviation;
  EXPECT_NEAR(upper_only.upper, 3, 1e-12);
  EXPECT_TRUE(is_missing(upper_only.lower));
}

// The rules of the pack stand in one order or the other; each end keeps the narrower limit and names the rule it is
// from.
TEST(UseLog, NarrowsATolerancePartByPartInAnyOrder) {
  const RulesText within{{{Subject::sample, "pre.deviation", "within", {"5 %"}}}};
  const RulesText at_most{{{Subject::sample, "pre.deviation", "at_most", {"3 %"}}}};
  const RulesText wider{{{Subject::sample, "pre.deviation", "within", {"8 %"}}}};
  const auto together = [](const RulesText& first, const RulesText& second) {
    const Book book = book_of({});
    RuleSet rules = first.rule_set();
    rules.rules.push_back(second.rule_set().rules.front());
    rules.rules.back().id = "second";
    const Screening screening(book, rules);
    return use_log_of(screening, in_october).tolerances[0].deviation;
  };
  for (const Tolerance& tolerance : {together(within, at_most), together(at_most, within)}) {
    EXPECT_NEAR(tolerance.upper, 3, 1e-12);
    EXPECT_NEAR(tolerance.lower, -5, 1e-12);
    EXPECT_EQ(tolerance.source, "own/second") << "the rule that narrowed it last";
  }
  const Tolerance kept = together(within, wider);
  EXPECT_NEAR(kept.upper, 5, 1e-12);
  EXPECT_NEAR(kept.lower, -5, 1e-12);
  EXPECT_EQ(kept.source, "own/pre.deviation") << "a wider limit narrows nothing";
}

// own input: the example of the header, 2 √((0.014/2)² + (0.004/√4)²); computed with SciPy 1.10 by
// tests/support/computed_records.py.
TEST(CheckUncertainty, IsThatOfTheExample) {
  Certificate certificate;
  certificate.coverage_factor = 2;
  CertificatePoint point;
  point.nominal_l_min = point.reference_l_min = 2;
  point.expanded_uncertainty_l_min = 0.014;
  certificate.points.push_back(point);
  MeanAndSpread flow;
  flow.n = 4;
  flow.mean = 2;
  flow.s = 0.004;
  EXPECT_NEAR(check_uncertainty(flow, certificate), 0.0145602, 1e-6);
}

// input: the same spread and statement.
TEST(CheckUncertainty, IsMissingForASingleReadingAndWithoutAStatement) {
  Certificate certificate;
  CertificatePoint point;
  point.reference_l_min = 2;
  certificate.points.push_back(point);
  MeanAndSpread flow;
  flow.n = 4;
  flow.mean = 2;
  flow.s = 0.004;
  EXPECT_TRUE(std::isnan(check_uncertainty(flow, certificate)));
  certificate.points[0].expanded_uncertainty_l_min = 0.014;
  flow.n = 1;
  EXPECT_TRUE(std::isnan(check_uncertainty(flow, certificate)));
}

}  // namespace
}  // namespace driftwarden::use_log_test

// SPDX-License-Identifier: MIT
#include "assessment/budget.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"

namespace driftwarden::budget_test {
namespace {

// input: conditions and half-widths, where nothing else is said.

// own input: the worked book; computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(Budget, OfTheWorkedBookHasTheContributionsComputedByHand) {
  const BudgetedBook worked(worked_book());
  constexpr BudgetFigure ref = BudgetFigure::volume_reference;
  expect_digits(worked.figures.volume_reference_l, 919.5263401);
  expect_digits(worked.contribution(BudgetSource::pre_repeatability, ref), 0.2966465838);
  expect_digits(worked.contribution(BudgetSource::post_repeatability, ref), 0.2798941717);
  expect_digits(worked.contribution(BudgetSource::pre_resolution, ref), 0.06686930421);
  expect_digits(worked.contribution(BudgetSource::post_resolution, ref), 0.06686930421);
  expect_digits(worked.contribution(BudgetSource::certificate, ref), 4.588454791);
  expect_digits(worked.contribution(BudgetSource::flow_between, ref), 7.061398525);
  expect_digits(worked.contribution(BudgetSource::start_time, ref), -0.5530091458);
  expect_digits(worked.contribution(BudgetSource::stop_time, ref), 0.5530091458);
  expect_digits(worked.contribution(BudgetSource::sampling_pressure, ref), 1.615280264);
  expect_digits(worked.contribution(BudgetSource::sampling_temperature, ref), -3.585269492);
  EXPECT_EQ(worked.budget.lines.size(), 10U);  // readings of a dry piston lean on no conditions
  ASSERT_EQ(worked.budget.lacks.size(), 1U);   // one certificate doesn't tell how far the calibrator moves
  EXPECT_EQ(worked.budget.lacks[0].source, BudgetSource::calibrator_drift);
}

// own input: the worked book; computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(Budget, OfTheWorkedBookHasTheFiguresComputedByHand) {
  const BudgetedBook worked(worked_book());
  const Budget& budget = worked.budget;
  expect_digits(budget.about(BudgetFigure::volume_reference).u, 9.336352357);
  expect_digits(budget.about(BudgetFigure::volume_reference).dof, 2189495.562);
  expect_digits(budget.about(BudgetFigure::volume).u, 8.790909234);
  expect_digits(budget.about(BudgetFigure::volume).dof, 1481576.819);
  expect_digits(budget.about(BudgetFigure::flow).u, 0.01823611587);
  expect_digits(budget.about(BudgetFigure::drift).u, 0.0008862955651);
  expect_digits(budget.about(BudgetFigure::drift).dof, 8.875925321);
}

// own input: t for 95 % and 8 degrees of freedom, 8.88 truncated, is 2.306; computed with SciPy 1.10 by
// tests/support/computed_records.py.
TEST(Budget, TruncatesTheDegreesOfFreedomBeforeItLooksUpT) {
  const BudgetedBook worked(worked_book());
  const FigureUncertainty& drift = worked.budget.about(BudgetFigure::drift);
  EXPECT_NEAR(drift.coverage_factor, 2.306, 0.0005);
  EXPECT_NEAR(drift.expanded, 2.306 * 0.0008862956, 5e-7);
}

TEST(Budget, OfOneCalibratorForBothSetsCancelsInTheDriftAndNotInTheVolume) {
  const BudgetedBook worked(worked_book());
  EXPECT_EQ(worked.contribution(BudgetSource::certificate, BudgetFigure::drift), 0);
  EXPECT_GT(worked.contribution(BudgetSource::certificate, BudgetFigure::volume), 4);
  EXPECT_EQ(worked.line(BudgetSource::pre_certificate), nullptr);
}

// own input: two calibrators, whose parts add up in the drift and average in the volume; computed with SciPy 1.10 by
// tests/support/computed_records.py.
TEST(Budget, OfTwoCalibratorsLeavesBothCertificatesInTheDrift) {
  BookText text = worked_book();
  replace_all(text.readings, "post,S1,V1", "post,S1,V2");
  const BudgetedBook worked(text);
  EXPECT_EQ(worked.line(BudgetSource::certificate), nullptr);
  expect_digits(worked.budget.about(BudgetFigure::drift).u, 0.006928608316);
  expect_digits(worked.budget.about(BudgetFigure::volume_reference).u, 8.754563328);
}

TEST(Budget, StatesNoUncertaintyOfWhatLeansOnASingleReading) {
  BookText text = worked_book();
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.013\n2026-09-21T07:31,pre,S1,V1,2.008\n2026-09-21T16:10,post,S1,V2,1.957\n";
  const BudgetedBook single(text);
  EXPECT_TRUE(single.lacks(BudgetSource::post_repeatability));
  for (const FigureUncertainty& of : single.budget.of) EXPECT_TRUE(is_missing(of.expanded));
  AssessmentPractice pre_only;
  pre_only.flow_for_volume = FlowForVolume::pre;
  const BudgetedBook by_pre(text, pre_only);
  EXPECT_TRUE(is_missing(by_pre.budget.about(BudgetFigure::drift).expanded));
  EXPECT_GT(by_pre.budget.about(BudgetFigure::volume).expanded, 0);  // the post set takes no part in it
}

// own input: 2.013 and 2.008 L/min before have s / q = 0.00353553 / 2.0105 = 0.175853 %, one degree of freedom; a
// single reading of 1.002 · 1.957 L/min after is then known to 0.00344834 L/min, computed by hand.
TEST(Budget, OfASingleReadingLeansOnHowItsCalibratorScatteredBefore) {
  BookText text = worked_book();
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.013\n2026-09-21T07:31,pre,S1,V1,2.008\n2026-09-21T16:10,post,S1,V1,1.957\n";
  const BudgetedBook single(text);
  EXPECT_FALSE(single.lacks(BudgetSource::post_repeatability));
  const BudgetLine* pooled = single.line(BudgetSource::post_pooled_repeatability);
  ASSERT_NE(pooled, nullptr);
  EXPECT_NEAR(pooled->u, 0.00344834, 5e-8);
  EXPECT_EQ(pooled->dof, 1);
  EXPECT_FALSE(is_missing(single.budget.about(BudgetFigure::volume).expanded));
}

TEST(Budget, ListsWhatTheBookDoesNotSayAndDoesNotInventIt) {
  BookText text = worked_book();
  replace_all(text.settings, "[uncertainty]\ntemperature = \"2 °C\"\npressure = \"0.3 kPa\"\n", "");
  replace_all(text.instruments, "volumetric,0.001", "volumetric,");
  const BudgetedBook bare(text);
  for (const BudgetSource source : {BudgetSource::pre_resolution, BudgetSource::post_resolution,
                                    BudgetSource::sampling_temperature, BudgetSource::sampling_pressure}) {
    EXPECT_TRUE(bare.lacks(source)) << to_text(source);
    EXPECT_EQ(bare.line(source), nullptr) << to_text(source);
  }
  EXPECT_GT(bare.budget.about(BudgetFigure::volume_reference).expanded, 0);  // none of them is essential
}

TEST(Budget, WithoutACertificatesUncertaintyStatesThatOfTheDriftOnly) {
  BookText text = worked_book();
  replace_all(text.certificates, ",0.020,2\n", ",,\n");
  const BudgetedBook unknown(text);
  EXPECT_TRUE(unknown.lacks(BudgetSource::certificate));
  EXPECT_TRUE(is_missing(unknown.budget.about(BudgetFigure::volume).expanded));
  EXPECT_GT(unknown.budget.about(BudgetFigure::drift).expanded, 0);  // the same calibrator cancels, whatever its error
}

TEST(Budget, OfASampleWithoutAPostReadingIsEmpty) {
  BookText text = worked_book();
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T16:10"));
  const BudgetedBook unread(text);
  EXPECT_TRUE(unread.budget.lines.empty());
  EXPECT_TRUE(unread.budget.lacks.empty());
  EXPECT_TRUE(is_missing(unread.budget.about(BudgetFigure::volume).u));
}

// derived: 1.002 x (2.0112 - 1.9584) is 0.0529056. Half the distance of pre and post where their mean counts; all of it
// where one of them does.
TEST(Budget, AllowsTheFlowBetweenTheChecksTheWholeWayToTheOtherOne) {
  const BudgetedBook mean(worked_book());
  AssessmentPractice lower;
  lower.flow_for_volume = FlowForVolume::lower;
  const BudgetedBook low(worked_book(), lower);
  expect_digits(mean.line(BudgetSource::flow_between)->u, 0.0264528 / std::sqrt(3.0));
  expect_digits(low.line(BudgetSource::flow_between)->u, 0.0529056 / std::sqrt(3.0));
  EXPECT_EQ(low.contribution(BudgetSource::pre_repeatability, BudgetFigure::volume), 0);
}

// JCGM 100:2008, 6.3.1 note: a known difference is no uncertainty. U is that of what was measured, by any practice the
// same; 1.9887696 L/min by 480 min, as in the worked budget.
TEST(Budget, IsOfTheMeasuredVolumeWhereTheVolumeIsAConvention) {
  BookText text = worked_book();
  text.samples =
      "sample,pump,started,stopped,temperature [°C],pressure [kPa],nominal [L/min]\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00,23,98.6,2.4\n";
  AssessmentPractice practice;
  practice.flow_for_volume = FlowForVolume::nominal;
  const BudgetedBook book(text, practice);
  EXPECT_NEAR(book.figures.volume_l, 1152, 1e-9);
  expect_digits(book.figures.measured_volume_l, 954.609408);
  expect_digits(book.budget.about(BudgetFigure::volume).u, 8.790909234);
  expect_digits(book.budget.about(BudgetFigure::volume_reference).u, 9.336352357);
  EXPECT_EQ(book.budget.lacks.size(), BudgetedBook(text).budget.lacks.size());
}

// 1 % of both flows acts on their difference by 1 % of that, and on a drift not at all.
TEST(Budget, AChangeInFlowHasAnUncertaintyOfItsOwn) {
  const BudgetedBook worked(worked_book());
  const double q1 = worked.figures.pre_l_min;
  const double q2 = worked.figures.post_l_min;
  double sum = 0;
  for (const BudgetLine& line : worked.budget.lines) {
    const double part = line.u * (line.source == BudgetSource::pre_repeatability    ? 1
                                  : line.source == BudgetSource::post_repeatability ? 1
                                  : line.source == BudgetSource::certificate        ? q2 - q1
                                  : line.source == BudgetSource::pre_resolution     ? 1.002
                                  : line.source == BudgetSource::post_resolution    ? 1.002
                                                                                    : 0);
    sum += part * part;
  }
  EXPECT_NEAR(uncertainty_of_change(worked.budget, {-1, 1}).u, std::sqrt(sum), 1e-9);
  const FlowWeights weights = drift_weights(q1, q2, DriftBase::pre, missing);
  EXPECT_NEAR(uncertainty_of_change(worked.budget, weights).u, worked.budget.about(BudgetFigure::drift).u, 1e-15);
}

TEST(Budget, StatesNoUncertaintyOfAChangeThatLeansOnWhatIsMissing) {
  BookText text = worked_book();
  replace_all(text.certificates, ",0.020,2", ",,");
  const BudgetedBook worked(text);
  EXPECT_TRUE(is_missing(uncertainty_of_change(worked.budget, {-1, 1}).u));
  const FlowWeights weights =
      drift_weights(worked.figures.pre_l_min, worked.figures.post_l_min, DriftBase::post, missing);
  EXPECT_FALSE(is_missing(uncertainty_of_change(worked.budget, weights).u));
}

}  // namespace
}  // namespace driftwarden::budget_test

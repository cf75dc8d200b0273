// SPDX-License-Identifier: MIT
#include "driftwarden/assessment/budget.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"

namespace driftwarden::budget_test {
namespace {

// input: conditions and half-widths, where nothing else is said.

constexpr double printed = 1e-6;  // relative: the figures below have seven digits

void expect_digits(double figure, double expected) { EXPECT_NEAR(figure, expected, printed * std::abs(expected)); }

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
      "2026-09-21T07:30,pre,S1,V1,2.013\n2026-09-21T07:31,pre,S1,V1,2.008\n2026-09-21T16:10,post,S1,V1,1.957\n";
  const BudgetedBook single(text);
  EXPECT_TRUE(single.lacks(BudgetSource::post_repeatability));
  for (const FigureUncertainty& of : single.budget.of) EXPECT_TRUE(is_missing(of.expanded));
  AssessmentPractice pre_only;
  pre_only.flow_for_volume = FlowForVolume::pre;
  const BudgetedBook by_pre(text, pre_only);
  EXPECT_TRUE(is_missing(by_pre.budget.about(BudgetFigure::drift).expanded));
  EXPECT_GT(by_pre.budget.about(BudgetFigure::volume).expanded, 0);  // the post set takes no part in it
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

// derived: a drift of so many parts of the pre, post or mean flow, its derivatives by small steps.
TEST(Budget, FollowsThePracticeOfTheDriftBase) {
  const double q1 = 1.002 * 2.0112;
  const double q2 = 1.002 * 1.9584;
  const auto drift = [](DriftBase base, double a, double b) {
    return (b - a) / (base == DriftBase::pre ? a : base == DriftBase::post ? b : (a + b) / 2);
  };
  for (const DriftBase base : {DriftBase::pre, DriftBase::post, DriftBase::mean}) {
    AssessmentPractice practice;
    practice.drift_base = base;
    const BudgetedBook book(worked_book(), practice);
    constexpr double h = 1e-5;
    const double by_pre = (drift(base, q1 + h, q2) - drift(base, q1 - h, q2)) / (2 * h);
    const double by_post = (drift(base, q1, q2 + h) - drift(base, q1, q2 - h)) / (2 * h);
    EXPECT_NEAR(book.line(BudgetSource::pre_repeatability)->sensitivity[0], by_pre, 1e-8);
    EXPECT_NEAR(book.line(BudgetSource::post_repeatability)->sensitivity[0], by_post, 1e-8);
  }
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

// Two readings before S1 and two after it that say the same; the headings of what is given and what it says.
std::string two_and_two(const std::string& headings, const std::string& pre, const std::string& post) {
  std::string rows = "taken,stage,sample," + headings + "\n";
  for (const std::string minute : {"1", "2"}) {
    rows += "2026-09-21T07:3" + minute + ",pre,S1," + pre + "\n2026-09-21T16:1" + minute + ",post,S1," + post + "\n";
  }
  return rows;
}

// Errors of 0 % at 1 L/min and 2 % at 2 L/min; U is 1 % of the reference at the one, 2 % at the other.
BookText between_two_points(const std::string& pre, const std::string& post) {
  BookText text = worked_book();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
      "[L/min],coverage factor\n"
      "C1,V1,2026-01-05,1,1,1,0.01,2\nC1,V1,2026-01-05,2,2,2.04,0.04,2\n";
  text.readings = two_and_two("calibrator,reading [L/min]", "V1," + pre, "V1," + post);
  return text;
}

// derived: h = 4 w (1 − w) |e₂ − e₁| / 2, which is 0.01 in the middle, 0.0075 at a quarter; nothing at a point.
TEST(Budget, LetsTheErrorBowBetweenCertificatePointsWhereEachSetWasRead) {
  const BudgetedBook on_a_point(between_two_points("2.04", "1.52"));
  EXPECT_EQ(on_a_point.line(BudgetSource::pre_interpolation), nullptr);
  ASSERT_NE(on_a_point.line(BudgetSource::post_interpolation), nullptr);
  EXPECT_NEAR(on_a_point.line(BudgetSource::post_interpolation)->u, 0.01 / std::sqrt(3), 1e-12);
  const BudgetedBook between(between_two_points("1.52", "1.26"));
  const BudgetLine* both = between.line(BudgetSource::interpolation);
  ASSERT_NE(both, nullptr);
  EXPECT_NEAR(both->u * both->on_pre, 0.01 / std::sqrt(3) * between.figures.pre_l_min, 1e-12);
  EXPECT_NEAR(both->u * both->on_post, 0.0075 / std::sqrt(3) * between.figures.post_l_min, 1e-12);
}

// derived: 0.005 and 0.010, half way between.
TEST(Budget, TakesTheCertificatesUncertaintyWhereEachSetWasRead) {
  const BudgetedBook book(between_two_points("2.04", "1.52"));
  const BudgetLine* certificate = book.line(BudgetSource::certificate);
  ASSERT_NE(certificate, nullptr);
  EXPECT_NEAR(certificate->u * certificate->on_pre, 0.01 * book.figures.pre_l_min, 1e-12);
  EXPECT_NEAR(certificate->u * certificate->on_post, 0.0075 * book.figures.post_l_min, 1e-12);
}

TEST(Budget, TakesACertificatesUncertaintyAlsoWhereItStatesNoneForTheOtherSet) {
  BookText text = between_two_points("1", "2.04");
  replace_all(text.certificates, "1,1,1,0.01,2", "1,1,1,0,2");
  const BudgetedBook book(text);
  const BudgetLine* certificate = book.line(BudgetSource::certificate);
  ASSERT_NE(certificate, nullptr);
  EXPECT_EQ(certificate->u * certificate->on_pre, 0);
  EXPECT_NEAR(certificate->u * certificate->on_post, 0.01 * book.figures.post_l_min, 1e-12);
}

// Errors of 0 at 1 L/min and 6 % at 2 L/min: at 1.5 L/min a step of the display moves the flow by
// 1 − 1.5 · 0.06 / 1.03 = 0.91262 of what it would without the slope (by hand).
TEST(Budget, PassesTheResolutionThroughTheSlopeOfTheErrorCurve) {
  BookText text = between_two_points("1.5", "1.5");
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
      "[L/min],coverage factor\n"
      "C1,V1,2026-01-05,1,1,1,0.01,2\nC1,V1,2026-01-05,2,1.88679245283018868,2,0.04,2\n";
  const BudgetedBook book(text);
  EXPECT_NEAR(book.line(BudgetSource::pre_resolution)->on_pre, 0.912621 / 1.03, 1e-6);
}

// A calibrator left without error on 2025-01-05 and found 0.4 % high on 2026-01-05, 365 days later; read on 2026-09-21,
// 259 days on: u = 0.4 % · 259 / 365 = 0.283836 % with one degree of freedom (by hand).
BookText with_a_history() {
  BookText text = worked_book();
  text.certificates =
      "certificate,instrument,calibrated,tolerance [%],nominal [L/min],reference [L/min],as found [L/min],as left "
      "[L/min],expanded uncertainty [L/min],coverage factor\n"
      "C0,V1,2025-01-05,1,2,2,,2,0.020,2\nC1,V1,2026-01-05,1,2,2,2.008,2,0.020,2\nC2,V2,2026-01-05,1,2,2,2,2,0.020,2\n";
  return text;
}

TEST(Budget, CountsWhatTheCalibratorMayHaveMovedSinceItsCertificate) {
  const BudgetedBook book(with_a_history());
  const BudgetLine* moved = book.line(BudgetSource::calibrator_drift);
  ASSERT_NE(moved, nullptr);
  EXPECT_NEAR(moved->u, 0.00283836, 5e-9);
  EXPECT_EQ(moved->dof, 1);
  EXPECT_EQ(moved->contribution(BudgetFigure::drift), 0);  // the same before and after
  EXPECT_NEAR(moved->contribution(BudgetFigure::flow), 0.00283836 * book.figures.flow_l_min, 5e-8);
}

TEST(Budget, NamesTheToleranceOfACalibratorWithoutAHistory) {
  BookText text = with_a_history();
  replace_all(text.readings, "post,S1,V1", "post,S1,V2");
  const BudgetedBook book(text);
  ASSERT_NE(book.line(BudgetSource::pre_calibrator_drift), nullptr);
  ASSERT_EQ(book.budget.lacks.size(), 1U);
  EXPECT_EQ(book.budget.lacks[0].source, BudgetSource::post_calibrator_drift);
  EXPECT_EQ(book.budget.lacks[0].within, 0.01);
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
}

// What a look-back supposes of a calibrator's error is not in doubt once more.
TEST(Budget, DoesNotCountTheMovementOfACalibratorWhoseErrorIsSupposed) {
  const Book book = book_of(with_a_history());
  SupposedErrors supposed;
  supposed.instrument = 1;
  supposed.from = book.certificates[1].calibrated;
  supposed.until = supposed.from + 400;
  supposed.by_day = {{{2.0, 0.03}}};
  const AssessmentBasis basis(
      book, {},
      SamplerFacts{std::vector<double>(book.texts.size(), missing), std::vector<double>(book.texts.size(), missing)},
      supposed);
  SampleAssessor assessor(basis);
  Budget budget;
  work_out_budget(basis, assessor.assess(0), budget);
  ASSERT_FALSE(budget.lines.empty());
  for (const BudgetLine& line : budget.lines) EXPECT_NE(line.source, BudgetSource::calibrator_drift);
}

// A rotameter before, a dry piston after, or what else is said; the last two columns are the readings' conditions.
BookText with_conditions(const std::string& pre, const std::string& post, const std::string& principle = "rotameter") {
  BookText text = worked_book();
  text.settings += "altitude_pressure = \"3 %\"\n[site]\naltitude = \"1500 m\"\n";
  text.instruments =
      "instrument,kind,principle,scale temperature [°C],scale pressure [kPa]\nP1,pump,,,\n"
      "V1,calibrator," +
      principle + ",20,101.325\nV2,calibrator,volumetric,,\n";
  text.readings = two_and_two("calibrator,reading [L/min],temperature [°C],pressure [kPa]", pre, post);
  return text;
}

TEST(Budget, ASetThatNeedsNoConditionsMayLackThem) {
  const BudgetedBook book(with_conditions("V2,2.0,,", "V1,2.0,20,85"));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).u));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume_reference).u));
  EXPECT_GT(std::abs(book.contribution(BudgetSource::reading_temperature, BudgetFigure::drift)), 0);
}

// What only one set has from the altitude does not cancel in the drift: 3 % / √3, half of it by the rotameter's root.
TEST(Budget, TakesThePressureByAltitudeForTheSetThatHasNoOther) {
  const BudgetedBook book(with_conditions("V1,2.0,20,", "V1,2.0,20,84.5"));
  const double ratio = book.figures.post_l_min / book.figures.pre_l_min;
  EXPECT_NEAR(std::abs(book.contribution(BudgetSource::altitude_pressure, BudgetFigure::drift)),
              ratio * 0.03 / std::sqrt(3) / 2, 1e-12);
  EXPECT_NEAR(std::abs(book.contribution(BudgetSource::reading_pressure, BudgetFigure::drift)),
              ratio * 0.3 / std::sqrt(3) / 84.5 / 2, 1e-12);
}

// A mass meter's flow is ∝ T / P and the conversion ∝ P / T: with one thermometer for both they cancel.
TEST(Budget, ConditionsThatTheSampleHasFromItsSetsAreNotKnownApart) {
  BookText text = with_conditions("V1,2.0,22,85", "V1,1.9,22,85", "mass");
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  const BudgetedBook book(text);
  EXPECT_EQ(book.line(BudgetSource::sampling_temperature), nullptr);
  EXPECT_EQ(book.line(BudgetSource::sampling_pressure), nullptr);
  EXPECT_NEAR(book.contribution(BudgetSource::reading_temperature, BudgetFigure::volume_reference), 0, 1e-9);
  EXPECT_NEAR(book.contribution(BudgetSource::reading_pressure, BudgetFigure::volume_reference), 0, 1e-9);
  EXPECT_GT(std::abs(book.contribution(BudgetSource::reading_temperature, BudgetFigure::volume)), 1);
}

// JCGM 100:2008, F.2.4.5: what a practice leaves uncorrected is no part of U, and has to be told.
TEST(Budget, ListsCorrectionsThatAPracticeLeavesOut) {
  AssessmentPractice never;
  never.correction.rotameter = RotameterCorrection::never;
  const BudgetedBook uncorrected(with_conditions("V1,2.0,20,85", "V1,1.9,20,85"), never);
  EXPECT_TRUE(uncorrected.lacks(BudgetSource::rotameter_as_read));
  EXPECT_EQ(uncorrected.line(BudgetSource::reading_pressure), nullptr);
  AssessmentPractice beyond;
  beyond.correction.rotameter = RotameterCorrection::beyond_5_percent;
  EXPECT_TRUE(
      BudgetedBook(with_conditions("V1,2.0,20,98", "V1,1.9,20,98"), beyond).lacks(BudgetSource::rotameter_as_read));
  EXPECT_FALSE(
      BudgetedBook(with_conditions("V1,2.0,20,85", "V1,1.9,20,85"), beyond).lacks(BudgetSource::rotameter_as_read));
  EXPECT_TRUE(
      BudgetedBook(with_conditions("V1,2.0,20,85", "V1,1.9,20,85", "bubble")).lacks(BudgetSource::bubble_humidity));
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

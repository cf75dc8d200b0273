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

// Three sets of one calibrator, known to 0.001, 0.003 and 0.002 L/min by their scatter (s / √2), whose certificate of
// 0.7 % (k = 2) leaves 0.35 % of each flow: 2.0, 1.8 and 2.0 L/min.
BookText three_unlike_sets() {
  BookText text = driftwarden::sagging_book();
  replace_all(text.readings, "S1,V1,1.801", "S1,V1,1.803");
  replace_all(text.readings, "S1,V1,1.799", "S1,V1,1.797");
  replace_all(text.readings, "post,S1,V1,2.001", "post,S1,V1,2.002");
  replace_all(text.readings, "post,S1,V1,1.999", "post,S1,V1,1.998");
  return text;
}

// derived: the difference of two sets has both scatters, and of the common certificate 0.35 % of the difference:
// √(0.001² + 0.003² + 0.0007²) and √(0.003² + 0.002² + 0.0007²) L/min. Degrees of freedom by JCGM 100, G.4.1, one each.
TEST(Budget, OfAnyTwoSetsIsOfTheirScattersAndOfTheirCertificateOnTheDifference) {
  const BudgetedBook book(three_unlike_sets());
  const auto difference = [&](std::size_t first, std::size_t second) {
    return uncertainty_of_sets(book.basis, book.figures, {book.figures.sets[first], book.figures.sets[second]},
                               {-1, 1});
  };
  EXPECT_NEAR(difference(0, 1).u, std::sqrt(10.49e-6), 1e-10);
  EXPECT_NEAR(difference(0, 1).dof, 10.49 * 10.49 / (1 + 81), 1e-6);
  EXPECT_NEAR(difference(1, 2).u, std::sqrt(13.49e-6), 1e-10);
  EXPECT_NEAR(difference(0, 2).u, std::sqrt(5e-6), 1e-10);
}

// derived: √(0.002² + (0.0035 · 2)²) and √(0.003² + (0.0035 · 1.8)²) L/min.
TEST(Budget, OfOneSetIsOfItsFlow) {
  const BudgetedBook book(three_unlike_sets());
  const auto flow = [&](std::size_t set) {
    return uncertainty_of_sets(book.basis, book.figures, {book.figures.sets[set], book.figures.sets[set]}, {0, 1}).u;
  };
  EXPECT_NEAR(flow(2), std::sqrt(53e-6), 1e-10);
  EXPECT_NEAR(flow(1), std::sqrt(48.69e-6), 1e-10);
}

TEST(Budget, OfTwoSetsIsMissingWhereAFlowIs) {
  BookText text = three_unlike_sets();
  replace_all(text.readings, "reading [L/min]\n", "void,note,reading [L/min]\n");
  replace_all(text.readings, ",V1,", ",V1,,,");
  replace_all(text.readings, "field,S1,V1,,,", "field,S1,V1,yes,slip,");
  const BudgetedBook book(text);
  const ReadingSet& pre = book.figures.sets[0];
  const ReadingSet& struck_out = book.figures.sets[1];
  EXPECT_TRUE(is_missing(uncertainty_of_sets(book.basis, book.figures, {pre, struck_out}, {-1, 1}).u));
  EXPECT_TRUE(is_missing(uncertainty_of_sets(book.basis, book.figures, {struck_out, pre}, {-1, 1}).u));
}

// derived: half of q − (q_pre + 3 q_post) / 4: √((0.001 / 4)² + (3 · 0.002 / 4)² + 0.003² + 0.0007²) / 2 L/min, one
// degree of freedom each.
TEST(Budget, OfAFieldSetLessItsShareOfBothHasAllThreeScattersAndTheCertificateOnTheDifference) {
  const BudgetedBook book(three_unlike_sets());
  const FigureUncertainty of =
      uncertainty_from_both(book.basis, book.figures, book.figures.sets[1], {-0.25, -0.75}, 0.5);
  EXPECT_NEAR(of.u, std::sqrt(11.8025e-6) / 2, 1e-10);
  EXPECT_NEAR(of.dof, 11.8025 * 11.8025 / (0.0625 * 0.0625 + 2.25 * 2.25 + 81), 1e-6);
}

// By one calibrator, whatever its error: −0.2 · 1.8 − 0.8 · 1.8 + 1.8 is nothing, but for what doubles make of it.
TEST(Budget, OfAFieldSetLikeBothNeedsNoCertificate) {
  BookText text = driftwarden::sagging_book();
  replace_all(text.certificates, ",0.7,2", ",,");
  for (const char* reading : {"2.001", "1.999", "1.801", "1.799"}) replace_all(text.readings, reading, "1.8");
  const BudgetedBook book(text);
  const ReadingSet& field = book.figures.sets[1];
  EXPECT_EQ(uncertainty_from_both(book.basis, book.figures, field, {-0.2, -0.8}, 1).u, 0);
  EXPECT_TRUE(is_missing(uncertainty_from_both(book.basis, book.figures, field, {-0.2, -0.7}, 1).u));
}

// derived: flows of a rotameter go with √T, so 2 K / √3 at 293.15 K act on the difference of 0.2 L/min by its half.
TEST(Budget, OfAFieldSetLessBothFollowsTheConditionsAtTheReadings) {
  const auto squared = [](const std::string& kelvin) {
    BookText text = driftwarden::sagging_book();
    replace_all(text.readings, "reading [L/min]\n", "temperature [°C],pressure [kPa],reading [L/min]\n");
    replace_all(text.readings, "S1,V1,", "S1,V1,20,101.325,");
    text.instruments =
        "instrument,kind,principle,scale temperature [°C],scale pressure [kPa]\nP1,pump,,,\n"
        "V1,calibrator,rotameter,20,101.325\nV2,calibrator,volumetric,,\n";
    text.settings += "[uncertainty]\ntemperature = \"" + kelvin + " °C\"\n";
    const BudgetedBook book(text);
    const double u = uncertainty_from_both(book.basis, book.figures, book.figures.sets[1], {-0.5, -0.5}, 1).u;
    return u * u;
  };
  EXPECT_NEAR(squared("2") - squared("0"), std::pow(0.2 / 2 / 293.15 * 2, 2) / 3, 1e-12);
}

TEST(Budget, OfAFieldSetLessBothIsMissingWithoutOneOfThem) {
  for (const std::string stage : {"pre", "post"}) {
    BookText text = driftwarden::sagging_book();
    replace_all(text.samples, "sample,", "sample,kind,");
    replace_all(text.samples, "S1,", "S1,sample,");
    replace_all(text.readings, "," + stage + ",S1,", ",field,S1,");
    const BudgetedBook book(text);
    EXPECT_TRUE(
        is_missing(uncertainty_from_both(book.basis, book.figures, book.figures.sets.back(), {-0.5, -0.5}, 1).u))
        << stage;
  }
}

TEST(Budget, IsFilledAnewForEachSample) {
  BudgetedBook worked(worked_book());
  const double before = worked.budget.about(BudgetFigure::volume).expanded;
  work_out_budget(worked.basis, worked.figures, worked.budget);
  EXPECT_EQ(worked.budget.lines.size(), 10U);
  EXPECT_EQ(worked.budget.lacks.size(), 1U);
  EXPECT_EQ(worked.budget.about(BudgetFigure::volume).expanded, before);
  worked.budget.flow_between = {FlowBetween::From::stated, {7, 0.01}};
  SampleAssessment without_a_volume = worked.figures;
  without_a_volume.measured_volume_l = missing;
  work_out_budget(worked.basis, without_a_volume, worked.budget);
  EXPECT_TRUE(worked.budget.lines.empty());
  EXPECT_TRUE(worked.budget.lacks.empty());
  EXPECT_EQ(worked.budget.flow_between.from, FlowBetween::From::distance);
  EXPECT_EQ(worked.budget.flow_between.earlier.uses, 0U);
  for (const FigureUncertainty& of : worked.budget.of) EXPECT_TRUE(is_missing(of.u));
}

// A volume by the pre flow is known without a post set; how well, is not.
TEST(Budget, OfAVolumeByThePreFlowIsEmptyWithoutAPostReading) {
  BookText text = worked_book();
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T16:10"));
  AssessmentPractice pre_only;
  pre_only.flow_for_volume = FlowForVolume::pre;
  const BudgetedBook book(text, pre_only);
  EXPECT_FALSE(is_missing(book.figures.measured_volume_l));
  EXPECT_TRUE(book.budget.lines.empty());
}

TEST(Budget, TakesTheTimesForRight) {
  const BudgetedBook worked(worked_book());
  EXPECT_EQ(worked.line(BudgetSource::start_time)->estimate, 0);
  EXPECT_EQ(worked.line(BudgetSource::stop_time)->estimate, 0);
}

// A mean is known as well whichever flow the volume is formed with.
TEST(Budget, OfTheMeanFlowIsTheSameByEveryPractice) {
  for (const BookText& text : {worked_book(), driftwarden::sagging_book()}) {
    const BudgetedBook by_mean(text);
    for (const FlowForVolume flow : {FlowForVolume::lower, FlowForVolume::pre}) {
      AssessmentPractice practice;
      practice.flow_for_volume = flow;
      const BudgetedBook book(text, practice);
      const FigureUncertainty of = uncertainty_of_mean_flow(book.budget);
      EXPECT_NEAR(of.u, by_mean.budget.about(BudgetFigure::flow).u, 1e-12);
      EXPECT_NEAR(of.dof / by_mean.budget.about(BudgetFigure::flow).dof, 1, 1e-9);
    }
  }
}

TEST(Budget, OfTheMeanFlowIsMissingWhereEitherCheckIsNotKnown) {
  EXPECT_TRUE(is_missing(uncertainty_of_mean_flow(Budget{}).u));
  for (const char* single : {"2026-09-21T07:31,pre,S1,V1,2.008\n", "2026-09-21T16:11,post,S1,V2,1.962\n"}) {
    BookText text = worked_book();
    text.readings =
        "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.013\n"
        "2026-09-21T07:31,pre,S1,V1,2.008\n2026-09-21T16:10,post,S1,V2,1.957\n2026-09-21T16:11,post,S1,V2,1.962\n";
    EXPECT_FALSE(is_missing(uncertainty_of_mean_flow(BudgetedBook(text).budget).u));
    replace_all(text.readings, single, "");  // nothing tells how one reading scatters
    EXPECT_TRUE(is_missing(uncertainty_of_mean_flow(BudgetedBook(text).budget).u)) << single;
  }
}

}  // namespace
}  // namespace driftwarden::budget_test

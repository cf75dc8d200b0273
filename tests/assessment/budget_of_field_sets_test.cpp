// SPDX-License-Identifier: MIT
// The field sets in a budget: every figure was computed outside this program, by pocket calculator, from the
// definitions in docs/uncertainty.md.
#include "assessment/budget_of_field_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <tuple>

#include "assessment/worked_budget.hpp"
#include "quantity/number.hpp"

namespace driftwarden::budget_of_field_sets_test {
namespace {

// derived: by the arithmetic above each test.

// 2.000 before and after, 1.800 in the middle, two readings each that scatter by s = 0.00141421; certificates of 0.7 %.
BookText sagging_book(const std::string& field_calibrator = "V1", const std::string& post = "2.00") {
  BookText text;
  text.samples =
      "sample,pump,started,stopped,paused [min]\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00,\n";
  text.certificates = certificates_with_uncertainty;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.001\n2026-09-21T07:31,pre,S1,V1,1.999\n"
      "2026-09-21T11:59,field,S1," +
      field_calibrator + ",1.801\n2026-09-21T12:01,field,S1," + field_calibrator +
      ",1.799\n"
      "2026-09-21T16:10,post,S1,V1," +
      post + "1\n2026-09-21T16:11,post,S1,V1," + shortest(number_from(post).value() - 0.001) + "\n";
  return text;
}

AssessmentPractice along_the_line() {
  AssessmentPractice practice;
  practice.field_sets = FieldSets::line;
  return practice;
}

TEST(FieldSets, AreADifferenceInUWhereTheEndsCount) {
  const BudgetedBook book(sagging_book());
  EXPECT_NEAR(book.figures.volume_l, 960, 1e-9);
  const BudgetLine* line = book.line(BudgetSource::field_difference);
  ASSERT_NE(line, nullptr);
  EXPECT_NEAR(line->estimate, -0.1, 1e-12);
  EXPECT_NEAR(line->u, 0.1, 1e-12);
  EXPECT_NEAR(line->contribution(BudgetFigure::volume), 48, 1e-9);
  EXPECT_GT(book.budget.about(BudgetFigure::volume).expanded, 94);  // 1.96 x 48; it was 7.5 L
}

// Two spans of half the time, half of 0.2 L/min each: u = 0.05 √(2/3).
TEST(FieldSets, OnTheLineGiveItsMeanAndASpanEach) {
  const BudgetedBook book(sagging_book(), along_the_line());
  EXPECT_NEAR(book.figures.flow_l_min, 1.9, 1e-12);
  EXPECT_NEAR(book.figures.volume_l, 912, 1e-9);
  EXPECT_EQ(book.line(BudgetSource::field_difference), nullptr);
  expect_digits(book.line(BudgetSource::flow_between)->u, 0.0408248290);
  expect_digits(book.contribution(BudgetSource::pre_repeatability, BudgetFigure::flow), 0.25 * 0.001);
  expect_digits(book.contribution(BudgetSource::field_repeatability, BudgetFigure::flow), 0.5 * 0.001);
  EXPECT_NEAR(book.line(BudgetSource::field_repeatability)->dof, 1, 1e-9);
  // One certificate for all three sets: 0.35 % of the whole flow.
  expect_digits(book.contribution(BudgetSource::certificate, BudgetFigure::flow), 0.0035 * 1.9);
  EXPECT_EQ(book.line(BudgetSource::field_certificate), nullptr);
}

TEST(FieldSets, OfAnotherCalibratorHaveItsCertificate) {
  const BudgetedBook book(sagging_book("V2"), along_the_line());
  expect_digits(book.contribution(BudgetSource::certificate, BudgetFigure::flow), 0.0035 * 1.0);
  expect_digits(book.contribution(BudgetSource::field_certificate, BudgetFigure::flow), 0.0035 * 0.9);
}

// A level pump: each of two spans goes half as far, by √(1/2), and they are independent: 1 % of 2 L/min / √3 / 2.
TEST(FieldSets, OfALevelPumpHalveWhatIsNotKnownInBetween) {
  BookText text = sagging_book();
  replace_all(text.readings, ",1.801", ",2.001");
  replace_all(text.readings, ",1.799", ",1.999");
  expect_digits(BudgetedBook(text, along_the_line()).line(BudgetSource::flow_between)->u, 0.00577350269);
}

// 2.0, 1.8, 1.8: the mean is 1.85, that of the first span 1.9. 48 of 480 minutes, all of them in it: 0.05 x 48 / 432 /
// √3.
TEST(FieldSets, LetThePausesHaveBeenAnywhere) {
  BookText text = sagging_book("V1", "1.80");
  replace_all(text.samples, "16:00,\n", "16:00,48\n");
  const BudgetedBook book(text, along_the_line());
  EXPECT_NEAR(book.figures.volume_l, 1.85 * 432, 1e-9);
  expect_digits(book.line(BudgetSource::pauses)->u, 0.00320750150);
  EXPECT_EQ(BudgetedBook(text).line(BudgetSource::pauses), nullptr);
}

// derived: the pre set, 2.001 and 1.999 L/min, has s / q = 0.0707106781 %; half of that share of 1.801 L/min.
TEST(FieldSets, OfOneReadingLeanOnHowTheirCalibratorScatteredBefore) {
  BookText text = sagging_book();
  replace_all(text.readings, "2026-09-21T12:01,field,S1,V1,1.799\n", "");
  const BudgetedBook book(text, along_the_line());
  EXPECT_EQ(book.line(BudgetSource::field_repeatability), nullptr);
  expect_digits(book.contribution(BudgetSource::field_pooled_repeatability, BudgetFigure::flow), 0.5 * 1.27349931e-3);
  EXPECT_NEAR(book.line(BudgetSource::field_pooled_repeatability)->dof, 1, 1e-9);
  EXPECT_GT(book.budget.about(BudgetFigure::volume).expanded, 0);
}

TEST(FieldSets, OfOneReadingForbidAStatementOnTheLineWhereNothingTells) {
  BookText text = sagging_book("V2");
  replace_all(text.readings, "2026-09-21T12:01,field,S1,V2,1.799\n", "");
  const BudgetedBook book(text, along_the_line());
  EXPECT_TRUE(book.lacks(BudgetSource::field_repeatability));
  EXPECT_TRUE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::drift).u));
}

// The calibrator of the ends tells nothing of how it moves, and nothing is asked of it where it is not alone in the
// field.
TEST(FieldSets, OfTwoCalibratorsLeanOnTheHistoryOfTheOneThatReadNoEnd) {
  BookText text = sagging_book("V2");
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],expanded "
      "uncertainty [%],coverage factor\n"
      "C1,V1,2026-01-05,2,2,,2,0.7,2\nB0,V2,2025-01-05,2,2,,2,0.7,2\nB1,V2,2026-01-05,2,2,2.008,2,0.7,2\n";
  text.readings += "2026-09-21T14:00,field,S1,V1,1.901\n2026-09-21T14:01,field,S1,V1,1.899\n";
  const BudgetedBook book(text, along_the_line());
  ASSERT_NE(book.line(BudgetSource::field_calibrator_drift), nullptr);
  EXPECT_EQ(book.line(BudgetSource::field_calibrator_drift)->dof, 1);
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
}

constexpr BudgetFigure of_flow = BudgetFigure::flow;

// Two field sets, at a quarter and at three quarters of the time: shares of 1/8, 3/8, 3/8 and 1/8.
BookText with_two_field_sets(const std::string& first, const std::string& second) {
  BookText text = sagging_book();
  text.instruments += "V3,calibrator,volumetric\n";
  const std::size_t begin = text.readings.find("2026-09-21T11:59");
  const std::size_t end = text.readings.find("2026-09-21T16:10");
  text.readings.replace(begin, end - begin,
                        "2026-09-21T09:59,field,S1," + first + "\n2026-09-21T10:01,field,S1," + first +
                            "\n2026-09-21T13:59,field,S1," + second + "\n2026-09-21T14:01,field,S1," + second + "\n");
  return text;
}

TEST(FieldSets, TakeTheFlowBetweenTheChecksForRight) {
  EXPECT_EQ(BudgetedBook(sagging_book()).line(BudgetSource::flow_between)->estimate, 0);
}

// A rotameter whose pressure nobody wrote down has no flow: how far the line lies from the ends is not known.
TEST(FieldSets, OfUnknownFlowAreALackAndForbidNothing) {
  BookText text = sagging_book();
  text.instruments =
      "instrument,kind,principle,scale temperature [°C],scale pressure [kPa]\nP1,pump,,,\n"
      "V1,calibrator,volumetric,,\nV2,calibrator,rotameter,20,101.325\n";
  replace_all(text.readings, "field,S1,V1", "field,S1,V2");
  const BudgetedBook book(text);
  EXPECT_TRUE(book.lacks(BudgetSource::field_difference));
  EXPECT_EQ(book.line(BudgetSource::field_difference), nullptr);
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
}

// 1.801, 1.800 and 1.799: s = 0.001, so u = 0.001 / √3 with 2 degrees of freedom; half of it on the flow.
TEST(FieldSets, HaveTheDegreesOfFreedomOfTheirReadings) {
  BookText text = sagging_book();
  text.readings += "2026-09-21T12:02,field,S1,V1,1.800\n";
  const BudgetedBook book(text, along_the_line());
  expect_digits(book.contribution(BudgetSource::field_repeatability, of_flow), 0.000288675135);
  EXPECT_NEAR(book.line(BudgetSource::field_repeatability)->dof, 2, 1e-9);
}

TEST(FieldSets, OfEqualReadingsLeaveTheUncertaintyOfTheVolumeKnown) {
  BookText text = sagging_book();
  for (const char* reading : {"1.801", "1.799"}) replace_all(text.readings, reading, "1.8");
  const BudgetedBook book(text, along_the_line());
  EXPECT_EQ(book.line(BudgetSource::field_repeatability)->u, 0);
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).dof));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
}

// Whoever read an end read the field under the same certificate: 0.35 % of 0.25 · 2 + 0.5 · 1.8 L/min, and of 0.5.
TEST(FieldSets, OfACalibratorThatReadOneEndHaveThatEndsCertificate) {
  for (const auto& [field, of_pre, of_post] : {std::tuple{"V1", 1.4, 0.5}, std::tuple{"V2", 0.5, 1.4}}) {
    BookText text = sagging_book(field);
    replace_all(text.readings, "post,S1,V1", "post,S1,V2");
    const BudgetedBook book(text, along_the_line());
    EXPECT_EQ(book.line(BudgetSource::field_certificate), nullptr) << field;
    expect_digits(book.contribution(BudgetSource::pre_certificate, of_flow), 0.0035 * of_pre);
    expect_digits(book.contribution(BudgetSource::post_certificate, of_flow), 0.0035 * of_post);
  }
}

// Its error is one: 0.35 % of 3/8 · (1.8 + 1.9) L/min.
TEST(FieldSets, OfAnotherCalibratorHaveItsCertificateOnce) {
  const BudgetedBook book(with_two_field_sets("V2,1.8", "V2,1.9"), along_the_line());
  expect_digits(book.contribution(BudgetSource::field_certificate, of_flow), 0.0035 * 1.3875);
}

// 0.35 % of 3/8 · 1.8 and of 3/8 · 1.9 L/min, which have nothing in common.
TEST(FieldSets, OfTwoOtherCalibratorsHaveBothCertificates) {
  BookText text = with_two_field_sets("V2,1.8", "V3,1.9");
  text.certificates += "C3,V3,2026-01-05,2,2,2,0.7,2\n";
  const BudgetedBook book(text, along_the_line());
  expect_digits(book.contribution(BudgetSource::field_certificate, of_flow), 0.0035 * 0.981468925);
}

TEST(FieldSets, OfACertificateWithoutUncertaintyForbidAStatementOnTheLine) {
  for (const char* without : {"C2,V2,2026-01-05,2,2,2,0.7,2", "C3,V3,2026-01-05,2,2,2,0.7,2"}) {
    BookText text = with_two_field_sets("V2,1.8", "V3,1.9");
    text.certificates += "C3,V3,2026-01-05,2,2,2,0.7,2\n";
    replace_all(text.certificates, without, std::string(without, 22) + ",,");
    const BudgetedBook book(text, along_the_line());
    EXPECT_TRUE(book.lacks(BudgetSource::field_certificate)) << without;
    EXPECT_TRUE(is_missing(book.budget.about(BudgetFigure::volume).expanded)) << without;
    EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::drift).u)) << without;
  }
}

// Errors of 0 at 1 L/min and of 2 % at 2 L/min shown as 2.04: they bow by 0.01 at 1.52, in the middle, and by 0.0075 at
// 1.26, a quarter of the way.
BookText bowing_book(const std::string& pre, const std::string& field, const std::string& post) {
  BookText text = sagging_book();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
      "[%],coverage factor\n"
      "C1,V1,2026-01-05,1,1,1,0.7,2\nC1,V1,2026-01-05,2,2,2.04,0.7,2\n"
      "C2,V2,2026-01-05,1,1,1,0.7,2\nC2,V2,2026-01-05,2,2,2.04,0.7,2\n";
  text.readings = two_and_two("calibrator,reading [L/min]", pre, post);
  text.readings += "2026-09-21T11:59,field,S1," + field + "\n2026-09-21T12:01,field,S1," + field + "\n";
  return text;
}

TEST(FieldSets, OfAnotherCalibratorBowBetweenItsPoints) {
  const BudgetedBook book(bowing_book("V1,1", "V2,1.52", "V1,1"), along_the_line());
  expect_digits(book.contribution(BudgetSource::field_interpolation, of_flow), 0.5 * 1.52 / 1.01 * 0.01 / std::sqrt(3));
  EXPECT_EQ(book.line(BudgetSource::field_interpolation)->estimate, 0);
  EXPECT_EQ(BudgetedBook(bowing_book("V1,1", "V2,1", "V1,1"), along_the_line()).line(BudgetSource::field_interpolation),
            nullptr);
}

// Together, since it is one curve: 1/4 of 1.52 / 1.01 by 0.01, and 1/2 of 1.26 / 1.005 by 0.0075.
TEST(FieldSets, BowWithTheEndThatWasReadBetweenTheSamePoints) {
  const double together = (0.25 * 1.52 / 1.01 * 0.01 + 0.5 * 1.26 / 1.005 * 0.0075) / std::sqrt(3);
  const BudgetedBook pre(bowing_book("V1,1.52", "V1,1.26", "V1,1"), along_the_line());
  expect_digits(pre.contribution(BudgetSource::pre_interpolation, of_flow), together);
  EXPECT_EQ(pre.line(BudgetSource::field_interpolation), nullptr);
  const BudgetedBook post(bowing_book("V1,1", "V1,1.26", "V1,1.52"), along_the_line());
  expect_digits(post.contribution(BudgetSource::post_interpolation, of_flow), together);
  EXPECT_EQ(post.line(BudgetSource::field_interpolation), nullptr);
  const BudgetedBook another(bowing_book("V1,1.52", "V2,1.26", "V1,1"), along_the_line());
  expect_digits(another.contribution(BudgetSource::pre_interpolation, of_flow),
                0.25 * 1.52 / 1.01 * 0.01 / std::sqrt(3));
  EXPECT_NE(another.line(BudgetSource::field_interpolation), nullptr);
}

// V1 and V3 were found 0.4 % high after 365 days, V2 after 365 days and again after as many more; 259 days have gone
// since.
BookText with_histories(const std::string& first, const std::string& second, const std::string& found_3 = "2.008") {
  BookText text = with_two_field_sets(first, second);
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],expanded "
      "uncertainty [%],coverage factor\n"
      "A0,V1,2025-01-05,2,2,,2,0.7,2\nA1,V1,2026-01-05,2,2,2.008,2,0.7,2\n"
      "B0,V2,2024-01-06,2,2,,2,0.7,2\nB1,V2,2025-01-05,2,2,2.008,2,0.7,2\nB2,V2,2026-01-05,2,2,2.008,2,0.7,2\n"
      "D0,V3,2025-01-05,2,2,,2,0.7,2\nD1,V3,2026-01-05,2,2," +
      found_3 + ",2,0.7,2\n";
  return text;
}
constexpr double since = 0.004 * 259 / 365;

TEST(FieldSets, CountWhatTheirCalibratorsMayHaveMovedByTheOneThatIsKnownWorst) {
  const BudgetedBook both(with_histories("V2,1.8", "V3,1.9"), along_the_line());
  const BudgetLine* line = both.line(BudgetSource::field_calibrator_drift);
  ASSERT_NE(line, nullptr);
  EXPECT_EQ(line->dof, 1);
  EXPECT_NEAR(line->contribution(of_flow), since * 0.981468925, 1e-8);
  EXPECT_EQ(BudgetedBook(with_histories("V2,1.8", "V1,1.9"), along_the_line())
                .line(BudgetSource::field_calibrator_drift)
                ->dof,
            2);  // V1 read the ends, too
  EXPECT_EQ(BudgetedBook(with_histories("V2,1.8", "V3,1.9", "2"), along_the_line())
                .line(BudgetSource::field_calibrator_drift)
                ->dof,
            2);  // V3 has never moved
}

// One calibrator for all: it may have moved for the whole flow, 1/4 · 2 + 3/8 · (1.8 + 1.9).
TEST(FieldSets, MoveWithTheEndsUnderTheirCertificate) {
  const BudgetedBook book(with_histories("V1,1.8", "V1,1.9"), along_the_line());
  EXPECT_NEAR(book.contribution(BudgetSource::calibrator_drift, of_flow), since * 1.8875, 1e-8);
  EXPECT_EQ(book.line(BudgetSource::field_calibrator_drift), nullptr);
  BookText text = with_histories("V1,1.8", "V2,1.9");
  replace_all(text.readings, "post,S1,V1", "post,S1,V2");
  const BudgetedBook two(text, along_the_line());
  EXPECT_NEAR(two.contribution(BudgetSource::pre_calibrator_drift, of_flow), since * (0.25 + 0.675), 1e-8);
  EXPECT_NEAR(two.contribution(BudgetSource::post_calibrator_drift, of_flow), since * (0.25 + 0.7125), 1e-8);
}

TEST(FieldSets, OfACalibratorWithoutAHistoryAreALackAndForbidNothing) {
  const BudgetedBook book(sagging_book("V2"), along_the_line());
  EXPECT_TRUE(book.lacks(BudgetSource::field_calibrator_drift));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
}

// V2 shows 1.25 times the flow, so a step of 0.004 is one of 0.0032 L/min: √((3/8 · 0.0032)² + (3/8 · 0.002)²) / 2 /
// √3.
TEST(FieldSets, HaveTheResolutionOfEach) {
  BookText text = with_two_field_sets("V2,2.25", "V1,1.8");
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\nP1,pump,,\nV1,calibrator,volumetric,0.002\n"
      "V2,calibrator,volumetric,0.004\nV3,calibrator,volumetric,\n";
  replace_all(text.certificates, "C2,V2,2026-01-05,2,2,2,", "C2,V2,2026-01-05,2,2,2.5,");
  const BudgetedBook book(text, along_the_line());
  expect_digits(book.contribution(BudgetSource::field_resolution, of_flow), 0.000408503366);
  EXPECT_EQ(book.line(BudgetSource::field_resolution)->estimate, 0);
  EXPECT_FALSE(book.lacks(BudgetSource::field_resolution));
}

TEST(FieldSets, OfACalibratorOfUnknownResolutionAreALackAndForbidNothing) {
  BookText text = with_two_field_sets("V2,1.8", "V1,1.8");
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\nP1,pump,,\nV1,calibrator,volumetric,0.002\n"
      "V2,calibrator,volumetric,\nV3,calibrator,volumetric,\n";
  const BudgetedBook book(text, along_the_line());
  EXPECT_TRUE(book.lacks(BudgetSource::field_resolution));
  EXPECT_EQ(book.line(BudgetSource::field_resolution), nullptr);
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
}

}  // namespace
}  // namespace driftwarden::budget_of_field_sets_test

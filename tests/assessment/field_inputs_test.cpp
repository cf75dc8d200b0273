// SPDX-License-Identifier: MIT
// The field sets in a budget: every figure was computed outside this program, by pocket calculator, from the
// definitions in docs/uncertainty.md.
#include "assessment/field_inputs.hpp"

#include <gtest/gtest.h>

#include "assessment/worked_budget.hpp"
#include "quantity/number.hpp"

namespace driftwarden::field_inputs_test {
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

}  // namespace
}  // namespace driftwarden::field_inputs_test

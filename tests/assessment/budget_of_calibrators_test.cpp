// SPDX-License-Identifier: MIT
#include "assessment/budget_of_calibrators.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

#include "assessment/worked_budget.hpp"

namespace driftwarden::budget_of_calibrators_test {
namespace {

// input: conditions and half-widths, where nothing else is said.

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
TEST(CalibratorInputs, LetsTheErrorBowBetweenCertificatePointsWhereEachSetWasRead) {
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
TEST(CalibratorInputs, TakesTheCertificatesUncertaintyWhereEachSetWasRead) {
  const BudgetedBook book(between_two_points("2.04", "1.52"));
  const BudgetLine* certificate = book.line(BudgetSource::certificate);
  ASSERT_NE(certificate, nullptr);
  EXPECT_NEAR(certificate->u * certificate->on_pre, 0.01 * book.figures.pre_l_min, 1e-12);
  EXPECT_NEAR(certificate->u * certificate->on_post, 0.0075 * book.figures.post_l_min, 1e-12);
}

TEST(CalibratorInputs, TakesACertificatesUncertaintyAlsoWhereItStatesNoneForTheOtherSet) {
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
TEST(CalibratorInputs, PassesTheResolutionThroughTheSlopeOfTheErrorCurve) {
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

TEST(CalibratorInputs, CountsWhatTheCalibratorMayHaveMovedSinceItsCertificate) {
  const BudgetedBook book(with_a_history());
  const BudgetLine* moved = book.line(BudgetSource::calibrator_drift);
  ASSERT_NE(moved, nullptr);
  EXPECT_NEAR(moved->u, 0.00283836, 5e-9);
  EXPECT_EQ(moved->dof, 1);
  EXPECT_EQ(moved->contribution(BudgetFigure::drift), 0);  // the same before and after
  EXPECT_NEAR(moved->contribution(BudgetFigure::flow), 0.00283836 * book.figures.flow_l_min, 5e-8);
}

TEST(CalibratorInputs, NamesTheToleranceOfACalibratorWithoutAHistory) {
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
TEST(CalibratorInputs, DoesNotCountTheMovementOfACalibratorWhoseErrorIsSupposed) {
  const Book book = book_of(with_a_history());
  SupposedErrors supposed;
  supposed.instrument = 1;
  supposed.from = book.certificates[1].calibrated;
  supposed.until = supposed.from + 400;
  supposed.by_day = {{{2.0, 0.03}}};
  const AssessmentBasis basis(book, {}, SamplerFacts{}, supposed);
  SampleAssessor assessor(basis);
  Budget budget;
  work_out_budget(basis, assessor.assess(0), budget);
  ASSERT_FALSE(budget.lines.empty());
  for (const BudgetLine& line : budget.lines) EXPECT_NE(line.source, BudgetSource::calibrator_drift);
}

// On a point of its certificate a set has nothing to bow; then the other's is its own.
TEST(CalibratorInputs, LetsTheErrorBowForTheOneSetThatWasReadBetweenPoints) {
  for (const char* on_a_point : {"1", "2.04"}) {
    const BudgetedBook pre(between_two_points("1.52", on_a_point));
    EXPECT_EQ(pre.line(BudgetSource::interpolation), nullptr) << on_a_point;
    ASSERT_NE(pre.line(BudgetSource::pre_interpolation), nullptr) << on_a_point;
    EXPECT_NEAR(pre.line(BudgetSource::pre_interpolation)->u, 0.01 / std::sqrt(3), 1e-12);
    EXPECT_EQ(pre.line(BudgetSource::pre_interpolation)->estimate, 0);
    const BudgetedBook post(between_two_points(on_a_point, "1.52"));
    EXPECT_EQ(post.line(BudgetSource::interpolation), nullptr) << on_a_point;
    EXPECT_NE(post.line(BudgetSource::post_interpolation), nullptr) << on_a_point;
  }
}

// What the curve does between one pair of points says nothing of what it does between another.
TEST(CalibratorInputs, LetsTheErrorBowBetweenOtherPointsByItself) {
  BookText text = between_two_points("1.52", "2.52");
  text.certificates += "C1,V1,2026-01-05,3,3,3,0.04,2\n";
  const BudgetedBook book(text);
  EXPECT_EQ(book.line(BudgetSource::interpolation), nullptr);
  EXPECT_NE(book.line(BudgetSource::pre_interpolation), nullptr);
  EXPECT_NE(book.line(BudgetSource::post_interpolation), nullptr);
}

TEST(CalibratorInputs, LackTheCertificatesOfBothSetsWhereThereIsNone) {
  BookText text = worked_book();
  text.certificates = text.certificates.substr(0, text.certificates.find('\n') + 1);
  const BudgetedBook book(text);
  EXPECT_TRUE(book.lacks(BudgetSource::pre_certificate));
  EXPECT_TRUE(book.lacks(BudgetSource::post_certificate));
  EXPECT_FALSE(book.lacks(BudgetSource::certificate));
}

TEST(CalibratorInputs, LackTheCertificateThatStatesNoUncertaintyWhereOneOfTheSetsWasRead) {
  for (const auto& [pre, post] : {std::pair{"1", "2.04"}, std::pair{"2.04", "1"}}) {
    BookText text = between_two_points(pre, post);
    replace_all(text.certificates, "1,1,1,0.01,2", "1,1,1,,2");
    const BudgetedBook book(text);
    EXPECT_TRUE(book.lacks(BudgetSource::certificate)) << pre;
    EXPECT_EQ(book.line(BudgetSource::certificate), nullptr) << pre;
  }
}

TEST(CalibratorInputs, GiveTheErrorWhereThePreSetWasReadIfBothAreKnownAlike) {
  BookText text = between_two_points("1", "2.04");
  replace_all(text.certificates, "2,2,2.04,0.04,2", "2,2,2.04,0.02,2");
  EXPECT_EQ(BudgetedBook(text).line(BudgetSource::certificate)->estimate, 0);
}

// derived: 0.4 % of 365 days, 259 days on before and 260 after.
TEST(CalibratorInputs, CountsWhatTheCalibratorMayHaveMovedUntilEachSet) {
  BookText text = with_a_history();
  replace_all(text.readings, "2026-09-21T16:1", "2026-09-22T16:1");
  const BudgetedBook book(text);
  const BudgetLine* moved = book.line(BudgetSource::calibrator_drift);
  ASSERT_NE(moved, nullptr);
  EXPECT_EQ(moved->estimate, 0);
  EXPECT_NEAR(moved->u * moved->on_pre, 0.004 * 259 / 365 * book.figures.pre_l_min, 1e-8);
  EXPECT_NEAR(moved->u * moved->on_post, 0.004 * 260 / 365 * book.figures.post_l_min, 1e-8);
  EXPECT_EQ(book.line(BudgetSource::pre_resolution)->estimate, 0);
}

// C1 until 2026-09-20, C2 from the next day on.
BookText over_midnight(const std::string& readings) {
  BookText text = with_a_history();
  replace_all(text.certificates, "C2,V2,2026-01-05,1,2,2,2,2", "C2,V1,2026-09-21,1,2,2,2.02,2");
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-20T10:00,2026-09-20T23:50\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n" + readings;
  return text;
}

TEST(CalibratorInputs, TakeTwoCertificatesOfTheOneSetForNoneOfBoth) {
  BookText text = over_midnight(
      "2026-09-20T23:59,pre,S1,V1,2\n2026-09-21T00:01,pre,S1,V1,2\n2026-09-21T16:10,post,S1,V1,2\n"
      "2026-09-21T16:11,post,S1,V1,2\n");
  replace_all(text.samples, "2026-09-20T10:00,2026-09-20T23:50", "2026-09-21T08:00,2026-09-21T16:00");
  const BudgetedBook book(text);
  ASSERT_EQ(book.figures.pre_set()->certificate, book.figures.post_set()->certificate);
  EXPECT_EQ(book.line(BudgetSource::certificate), nullptr);
  EXPECT_NE(book.line(BudgetSource::pre_certificate), nullptr);
  EXPECT_NE(book.line(BudgetSource::post_certificate), nullptr);
}

// 0.4 % in 365 days; since the older certificate 259 have gone, and none since the new one.
TEST(CalibratorInputs, CountHowFarTheCalibratorMovedSinceTheOlderOfASetsTwoCertificates) {
  const BudgetedBook book(
      over_midnight("2026-09-20T09:00,pre,S1,V1,2\n2026-09-20T09:01,pre,S1,V1,2\n2026-09-20T23:59,post,S1,V1,2\n"
                    "2026-09-21T00:01,post,S1,V1,2\n"));
  const BudgetLine* moved = book.line(BudgetSource::post_calibrator_drift);
  ASSERT_NE(moved, nullptr);
  EXPECT_NEAR(moved->u, 0.004 * 259 / 365, 1e-9);
  EXPECT_EQ(moved->dof, 1);
}

}  // namespace
}  // namespace driftwarden::budget_of_calibrators_test

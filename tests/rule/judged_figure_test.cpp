// SPDX-License-Identifier: MIT
#include "rule/judged_figure.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::judged_figure_test {
namespace {

// input: figures to be told.

RuleText of_sample(std::string_view measure, std::string_view form, const std::string& value) {
  return {Subject::sample, measure, form, {value}};
}

TEST(FigureText, HasTheMeasuresUnitAndTheDecimalsOfAPerson) {
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), -0.06238, -0.05), "-6.2 %");
  EXPECT_EQ(figure_text(of_sample("flow", "at_least", "2 L/min").rule(), 1.98765, 2), "1.988 L/min");
  EXPECT_EQ(figure_text(of_sample("minutes", "at_least", "3 h").rule(), 179, 180), "179.0 min");
  EXPECT_EQ(figure_text(of_sample("pre.age", "at_most", "24 h").rule(), 1500, 1440), "25.0 h");
  EXPECT_EQ(figure_text(of_sample("calibrator.overdue", "at_most", "0 d").rule(), 23040, 0), "16.0 d");
  EXPECT_EQ(figure_text(of_sample("pre.count", "at_least", "3").rule(), 2, 3), "2");
  EXPECT_EQ(figure_text(of_sample("volume", "at_least", "400 L").rule(), 372.268, 400), "372.3 L");
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), missing, missing), "missing");
}

TEST(FigureText, HasTheUnitOfAnAbsoluteLimit) {
  EXPECT_EQ(figure_text(of_sample("drift", "within", "100 mL/min").rule(), -0.125, -0.1), "-125.000 mL/min");
}

// Never rounded to the other side of its limit, nor onto it.
TEST(FigureText, ShowsOnWhichSideOfTheLimitItLies) {
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), -0.0504, -0.05), "-5.04 %");
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), 0.0500004, 0.05), "5.00004 %");
  EXPECT_EQ(figure_text(of_sample("volume", "at_least", "400 L").rule(), 399.97, 400), "399.97 L");
  EXPECT_EQ(figure_text(of_sample("volume", "at_most", "12340 L").rule(), 12343, 12340), "12343 L");
}

TEST(Reported, IsInTheUnitOfTheMeasure) {
  Judgement judgement{Outcome::void_, -0.0624, -0.05, -0.0124};
  const Reported drift = reported(of_sample("drift", "within", "5 %").rule(), judgement);
  EXPECT_NEAR(drift.value, -6.24, 1e-12);
  EXPECT_NEAR(drift.limit, -5, 1e-12);
  EXPECT_NEAR(drift.margin, -1.24, 1e-12);
  EXPECT_EQ(drift.unit, "%");
}

TEST(Reported, IsInTheUnitOfAnAbsoluteLimit) {
  Judgement judgement{Outcome::void_, -0.125, -0.1, -0.025};
  const Reported drift = reported(of_sample("drift", "within", "100 mL/min").rule(), judgement);
  EXPECT_NEAR(drift.value, -125, 1e-9);
  EXPECT_NEAR(drift.margin, -25, 1e-9);
  EXPECT_EQ(drift.unit, "mL/min");
}

TEST(Reported, OfWhatIsMissingIsMissing) {
  const Reported drift = reported(of_sample("drift", "within", "5 %").rule(), Judgement{});
  EXPECT_TRUE(is_missing(drift.value));
  EXPECT_TRUE(is_missing(drift.limit));
  EXPECT_TRUE(is_missing(drift.margin));
}

// derived: 25 h instead of 24 h.
TEST(Reported, HasItsMarginInTheUnitOfTheMeasureToo) {
  const Reported age = reported(of_sample("pre.age", "at_most", "24 h").rule(), {Outcome::void_, 1500, 1440, -60});
  EXPECT_NEAR(age.value, 25, 1e-12);
  EXPECT_NEAR(age.margin, -1, 1e-12);
}

}  // namespace
}  // namespace driftwarden::judged_figure_test

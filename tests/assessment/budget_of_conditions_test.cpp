// SPDX-License-Identifier: MIT
#include "assessment/budget_of_conditions.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"

namespace driftwarden::budget_of_conditions_test {
namespace {

// input: conditions and half-widths, where nothing else is said.

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

TEST(ConditionInputs, ASetThatNeedsNoConditionsMayLackThem) {
  const BudgetedBook book(with_conditions("V2,2.0,,", "V1,2.0,20,85"));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).u));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume_reference).u));
  EXPECT_GT(std::abs(book.contribution(BudgetSource::reading_temperature, BudgetFigure::drift)), 0);
}

// What only one set has from the altitude does not cancel in the drift: 3 % / √3, half of it by the rotameter's root.
TEST(ConditionInputs, TakesThePressureByAltitudeForTheSetThatHasNoOther) {
  const BudgetedBook book(with_conditions("V1,2.0,20,", "V1,2.0,20,84.5"));
  const double ratio = book.figures.post_l_min / book.figures.pre_l_min;
  EXPECT_NEAR(std::abs(book.contribution(BudgetSource::altitude_pressure, BudgetFigure::drift)),
              ratio * 0.03 / std::sqrt(3) / 2, 1e-12);
  EXPECT_NEAR(std::abs(book.contribution(BudgetSource::reading_pressure, BudgetFigure::drift)),
              ratio * 0.3 / std::sqrt(3) / 84.5 / 2, 1e-12);
}

// One of two readings: each barometer acts on that reading's half of the mean, and on what it was of it.
TEST(ConditionInputs, TakesThePressureByAltitudeForTheReadingsThatHaveNoOther) {
  BookText text = with_conditions("V1,2.0,20,84.5", "V1,2.0,20,84.5");
  text.readings.replace(text.readings.find(",84.5"), 5, ",");
  const BudgetedBook book(text);
  const double ratio = book.figures.post_l_min / book.figures.pre_l_min;
  const double first = 1 / std::sqrt(book.basis.calibrators.site_pressure_kpa().value());  // flows go with 1 / √P
  const double second = 1 / std::sqrt(84.5);
  EXPECT_NEAR(std::abs(book.contribution(BudgetSource::altitude_pressure, BudgetFigure::drift)),
              ratio * 0.03 / std::sqrt(3) / 2 * first / (first + second), 1e-12);
  EXPECT_NEAR(std::abs(book.contribution(BudgetSource::reading_pressure, BudgetFigure::drift)),
              ratio * 0.3 / std::sqrt(3) / 84.5 / 2 * (1 - second / (first + second)), 1e-12);
}

// A scale drawn for 101.325 kPa: at 97 kPa a reading stands for the flow, at 95 it is corrected. Only this one follows
// the barometer, and the correction of the other is missing, on whichever side of 5 % the mean of both lies.
TEST(ConditionInputs, FollowTheReadingsOfASetThatAreCorrectedAndNoOthers) {
  AssessmentPractice beyond;
  beyond.correction.rotameter = RotameterCorrection::beyond_5_percent;
  for (const std::string other : {"97", "97.8"}) {  // means of 96 and 96.4; 5 % is at 96.26
    BookText text = with_conditions("V1,2.0,20," + other, "V2,2.0,,");
    text.readings.replace(text.readings.find("20," + other), 3 + other.size(), "20,95");
    const BudgetedBook book(text, beyond);
    const double factor = std::sqrt(101.325 / 95);  // of the one reading; the other's is 1
    EXPECT_NEAR(std::abs(book.contribution(BudgetSource::reading_pressure, BudgetFigure::drift)),
                book.figures.post_l_min / book.figures.pre_l_min * 0.3 / std::sqrt(3) / 95 / 2 * factor / (factor + 1),
                1e-12)
        << other;
    EXPECT_TRUE(book.lacks(BudgetSource::rotameter_as_read)) << other;
  }
}

// A mass meter's flow is ∝ T / P and the conversion ∝ P / T: with one thermometer for both they cancel.
TEST(ConditionInputs, ConditionsThatTheSampleHasFromItsSetsAreNotKnownApart) {
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
TEST(ConditionInputs, ListsCorrectionsThatAPracticeLeavesOut) {
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

AssessmentPractice along_the_line() {
  AssessmentPractice practice;
  practice.field_sets = FieldSets::line;
  return practice;
}

// Dry pistons before and after, a rotameter half way, whose set has half a share in the flow.
BookText with_a_field_set(const std::string& field) {
  BookText text = with_conditions("V2,2.0,,", "V2,2.0,,");
  for (const char* minute : {"11:59", "12:01"})
    text.readings += std::string("2026-09-21T") + minute + ",field,S1," + field + "\n";
  return text;
}

// derived: a rotameter's flow goes with √(T / P): half of it by 2 K / √3 of 293.15 K, of 0.3 kPa / √3 of 84.5 kPa, and
// of 3 % / √3 of a pressure by altitude.
TEST(ConditionInputs, FollowTheFieldSetsByTheirShares) {
  const BudgetedBook read(with_a_field_set("V1,2.0,20,84.5"), along_the_line());
  const double flow = read.figures.sets[1].flow.mean;
  EXPECT_NEAR(read.contribution(BudgetSource::reading_temperature, BudgetFigure::flow),
              0.5 * flow / 2 / 293.15 * 2 / std::sqrt(3), 1e-12);
  EXPECT_NEAR(read.contribution(BudgetSource::reading_pressure, BudgetFigure::flow),
              -0.5 * flow / 2 / 84.5 * 0.3 / std::sqrt(3), 1e-12);
  EXPECT_EQ(read.line(BudgetSource::altitude_pressure), nullptr);
  const BudgetedBook by_altitude(with_a_field_set("V1,2.0,20,"), along_the_line());
  EXPECT_NEAR(by_altitude.contribution(BudgetSource::altitude_pressure, BudgetFigure::flow),
              -0.5 * by_altitude.figures.sets[1].flow.mean / 2 * 0.03 / std::sqrt(3), 1e-12);
  EXPECT_EQ(by_altitude.line(BudgetSource::reading_pressure), nullptr);
}

TEST(ConditionInputs, AreThoseOfThePreSetElseOfThePostSet) {
  const BudgetedBook both(with_conditions("V1,2.0,20,84", "V1,1.9,22,85"));
  EXPECT_NEAR(both.line(BudgetSource::reading_temperature)->estimate, 293.15, 1e-9);
  EXPECT_NEAR(both.line(BudgetSource::reading_pressure)->estimate, 84, 1e-9);
  const BudgetedBook post(with_conditions("V2,2.0,,", "V1,1.9,22,85"));
  EXPECT_NEAR(post.line(BudgetSource::reading_temperature)->estimate, 295.15, 1e-9);
  EXPECT_NEAR(post.line(BudgetSource::reading_pressure)->estimate, 85, 1e-9);
}

// Nor is a pressure that was noted beside a dry piston.
TEST(ConditionInputs, OfASetThatDoesNotFollowThemAreNoEstimate) {
  const BudgetedBook book(with_conditions("V2,2.0,20,99", "V1,1.9,20,84.5"));
  EXPECT_NEAR(book.line(BudgetSource::reading_pressure)->estimate, 84.5, 1e-9);
}

TEST(ConditionInputs, ListACorrectionThatIsLeftOutOfAnySetAndForbidNothing) {
  AssessmentPractice never = along_the_line();
  never.correction.rotameter = RotameterCorrection::never;
  for (const BookText& text : {with_conditions("V1,2.0,20,85", "V2,1.9,,"), with_conditions("V2,2.0,,", "V1,1.9,20,85"),
                               with_a_field_set("V1,2.0,20,85")}) {
    const BudgetedBook book(text, never);
    EXPECT_TRUE(book.lacks(BudgetSource::rotameter_as_read)) << text.readings;
    EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded)) << text.readings;
  }
  EXPECT_FALSE(BudgetedBook(with_conditions("V2,2.0,,", "V2,1.9,,"), never).lacks(BudgetSource::rotameter_as_read));
}

}  // namespace
}  // namespace driftwarden::budget_of_conditions_test

// SPDX-License-Identifier: MIT
#include "correction/supposed_errors.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "record/sample.hpp"

namespace driftwarden::supposed_errors_test {
namespace {

constexpr double rounding = 1e-12;  // a few roundings of doubles

TEST(SupposedErrors, AreThoseOfTheDayForTheInstrumentItself) {
  const SupposedErrors errors{7, 100, 102, {{{1.0, 0.01}}, {{1.0, 0.02}}}, {}};
  EXPECT_EQ(errors.curve(7, 0, 99), nullptr);
  EXPECT_EQ(errors.curve(7, 0, 100)->front().error, 0.01);
  EXPECT_EQ(errors.curve(7, 0, 101)->front().error, 0.02);
  EXPECT_EQ(errors.curve(7, 0, 102), nullptr) << "the last day is the new certificate's";
  EXPECT_EQ(errors.curve(8, 0, 100), nullptr) << "another instrument";
}

TEST(SupposedErrors, OneCurveHoldsOnAllDays) {
  const SupposedErrors errors{7, no_day, 102, {{{1.0, 0.06}}}, {}};
  EXPECT_EQ(errors.curve(7, -1, -20000)->front().error, 0.06);
  EXPECT_EQ(errors.curve(7, -1, 101)->front().error, 0.06);
}

TEST(SupposedErrors, OfOthersGoByTheirCertificate) {
  const SupposedErrors errors{7, 100, 102, {{{1.0, 0.06}}}, {{3, {{2.0, 0.05}}}}};
  EXPECT_EQ(errors.curve(8, 3, 5000)->front().error, 0.05) << "also long after the window";
  EXPECT_EQ(errors.curve(8, 4, 101), nullptr);
  EXPECT_EQ(errors.curve(8, -1, 101), nullptr);
}

TEST(SupposedErrors, OfNobodyAreNone) {
  const SupposedErrors errors;
  EXPECT_EQ(errors.curve(no_row, -1, 0), nullptr);
}

// own input: the example of the header, (-0.002 + 0.06) / 2; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ErrorOnTheWay, IsHalfWayAfterHalfTheDays) {
  const ErrorCurve left{{2.0, -0.002}};
  const ErrorCurve found{{2.0, 0.06}};
  const ErrorCurve half = error_on_the_way(left, found, 0.5);
  ASSERT_EQ(half.size(), 1U);
  EXPECT_NEAR(half[0].error, 0.029, rounding);
  EXPECT_EQ(error_on_the_way(left, found, 0)[0].error, -0.002);
}

TEST(ErrorOnTheWay, HasTheCornersOfBothCurves) {
  const ErrorCurve left{{1.0, 0.00}, {3.0, 0.02}};
  const ErrorCurve found{{2.0, 0.06}, {4.0, 0.10}};
  const ErrorCurve half = error_on_the_way(left, found, 0.5);
  ASSERT_EQ(half.size(), 4U);
  for (const double indication : {0.5, 1.0, 1.7, 2.5, 3.0, 3.9, 5.0}) {
    const double expected = (error_at(left, indication).error + error_at(found, indication).error) / 2;
    EXPECT_NEAR(error_at(half, indication).error, expected, rounding) << indication;
  }
}

Certificate against(double reference_l_min, double as_left_l_min) {
  Certificate certificate;
  certificate.points.push_back({reference_l_min, reference_l_min, {}, as_left_l_min, {}, {}});
  return certificate;
}

// own input: the example of the header, 2.0 x 0.998 / 1.06; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(WithOtherStandard, ShiftsTheTrueFlow) {
  const ErrorCurve stated{{2.0, -0.002}};
  const ErrorCurve supposed{{2.0, 0.06}};
  const Certificate shifted = with_other_standard(against(2.0, 2.0), stated, supposed);
  EXPECT_NEAR(shifted.points[0].reference_l_min, 2.0 * 0.998 / 1.06, rounding);
  EXPECT_NEAR(shifted.points[0].reference_l_min, 1.8830, 5e-5);
  // What was set right by a standard that shows 6 % too much now shows as much too much itself.
  EXPECT_NEAR(error_curve(shifted)[0].error, 2.0 / (2.0 * 0.998 / 1.06) - 1, rounding);
}

TEST(WithOtherStandard, ChangesNothingWhereTheErrorIsTheStatedOne) {
  const ErrorCurve stated{{1.0, 0.01}, {3.0, 0.03}};
  EXPECT_NEAR(with_other_standard(against(2.0, 2.0), ErrorCurve{{2.0, 0.01}}, ErrorCurve{{2.0, 0.01}})
                  .points[0]
                  .reference_l_min,
              2.0, rounding);
  // With errors that change along the scale, the standard's indication is 2.04: 1.0204 for 1.02, 0.04 % of it.
  EXPECT_NEAR(with_other_standard(against(2.0, 2.0), stated, stated).points[0].reference_l_min, 2.0, 2.0 * 5e-4);
}

TEST(WithOtherStandard, KnowsNoFlowOfAStandardThatShowedNothing) {
  const Certificate shifted = with_other_standard(against(2.0, 2.0), {}, ErrorCurve{{2.0, -1.0}});
  EXPECT_TRUE(std::isnan(shifted.points[0].reference_l_min));
}

TEST(SupposedErrors, OfAnInstrumentWithoutACurveAreNone) {
  EXPECT_EQ((SupposedErrors{7, 100, 102, {}, {}}.curve(7, 0, 101)), nullptr);
}

// A reading without a calibrator in the book is not by the instrument looked at, though neither has a row.
TEST(SupposedErrors, OfNoInstrumentGoByTheCertificate) {
  const SupposedErrors errors{no_row, 100, 102, {{{1.0, 0.06}}}, {{3, {{2.0, 0.05}}}}};
  EXPECT_EQ(errors.curve(no_row, 4, 101), nullptr);
  EXPECT_EQ(errors.curve(no_row, 3, 101)->front().error, 0.05);
}

// derived: the standard showed 2.0 x 0.9 = 1.8 L/min, where its error is supposed to be 3 %.
TEST(WithOtherStandard, ReadsTheSupposedErrorAtWhatTheStandardShowed) {
  const ErrorCurve stated{{2.0, -0.1}};
  const ErrorCurve supposed{{1.6, 0.02}, {2.4, 0.06}};
  const Certificate shifted = with_other_standard(against(2.0, 2.0), stated, supposed);
  EXPECT_NEAR(shifted.points[0].reference_l_min, 2.0 * 0.9 / 1.03, rounding);
}

TEST(WithOtherStandard, ShiftsTheTrueFlowAsFoundToo) {
  Certificate two = against(2.0, 2.0);
  two.points.push_back(two.points.front());
  two.points[0].reference_as_found_l_min = 1.9;
  const Certificate shifted = with_other_standard(two, {}, ErrorCurve{{2.0, 0.06}});
  EXPECT_NEAR(*shifted.points[0].reference_as_found_l_min, 1.9 / 1.06, rounding);
  EXPECT_FALSE(shifted.points[1].reference_as_found_l_min);
}

}  // namespace
}  // namespace driftwarden::supposed_errors_test

// SPDX-License-Identifier: MIT
#include "correction/certificate_error.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <optional>

namespace driftwarden::certificate_error_test {
namespace {

// derived: straight lines between the points, in the head.

constexpr double rounding = 1e-15;

CertificatePoint point(double reference, std::optional<double> as_found, std::optional<double> as_left) {
  CertificatePoint made;
  made.nominal_l_min = reference;
  made.reference_l_min = reference;
  made.as_found_l_min = as_found;
  made.as_left_l_min = as_left;
  return made;
}

Certificate certificate(std::vector<CertificatePoint> points) {
  Certificate made;
  made.points = std::move(points);
  return made;
}

TEST(CertificateError, IsRelativeToTheTrueFlow) {
  const auto curve = error_curve(certificate({point(2.00, std::nullopt, 2.02)}));
  ASSERT_EQ(curve.size(), 1U);
  EXPECT_EQ(curve[0].indication_l_min, 2.02);
  EXPECT_NEAR(curve[0].error, 0.01, rounding);
}

TEST(CertificateError, ComesFromTheAsLeftIndicationWhereThereIsOne) {
  const auto curve = error_curve(certificate({point(1.0, 1.10, 1.01), point(2.0, 1.98, std::nullopt)}));
  ASSERT_EQ(curve.size(), 2U);
  EXPECT_EQ(curve[0].indication_l_min, 1.01);
  EXPECT_NEAR(curve[0].error, 0.01, rounding);
  EXPECT_EQ(curve[1].indication_l_min, 1.98);
  EXPECT_NEAR(curve[1].error, -0.01, rounding);
}

TEST(CertificateError, AsFoundCurveLooksAtNothingElse) {
  const auto curve =
      as_found_curve(certificate({point(1.0, 1.10, 1.01), point(2.0, std::nullopt, 2.02), point(3.0, 2.85, 3.0)}));
  ASSERT_EQ(curve.size(), 2U);
  EXPECT_NEAR(curve[0].error, 0.10, rounding);
  EXPECT_NEAR(curve[1].error, -0.05, rounding);
}

// As found 2.064 at 2.001 L/min, as left 2.001 at 2.000: by hand 0.001/2 and 0.063/2.001. 2.030 was 2.0290, not 2.0005.
TEST(CertificateError, HoldsEachIndicationToItsOwnReference) {
  CertificatePoint both = point(2.000, 2.064, 2.001);
  both.reference_as_found_l_min = 2.001;
  EXPECT_NEAR(error_at(error_curve(certificate({both})), 2.030).error, 0.0005, rounding);
  EXPECT_NEAR(2.030 / (1 + error_at(error_curve(certificate({both})), 2.030).error), 2.0290, 5e-5);
  EXPECT_NEAR(as_found_curve(certificate({both}))[0].error, 0.063 / 2.001, rounding);
  both.as_left_l_min.reset();
  EXPECT_NEAR(error_curve(certificate({both}))[0].error, 0.063 / 2.001, rounding);
}

TEST(CertificateError, LeavesOutWhatWasReadBeforeAnAdjustmentOnly) {
  CertificatePoint before = point(1.0, 1.05, std::nullopt);
  before.is_before_adjustment = true;
  const Certificate two = certificate({before, point(2.0, std::nullopt, 2.02)});
  ASSERT_EQ(error_curve(two).size(), 1U);
  EXPECT_EQ(error_curve(two)[0].indication_l_min, 2.02);
  EXPECT_EQ(as_found_curve(two).size(), 1U);
}

TEST(CertificateError, LeavesOutPointsThatSayNothing) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(error_curve(certificate({})).empty());
  EXPECT_TRUE(error_curve(certificate({point(2.0, std::nullopt, std::nullopt), point(0, 0.1, 0.1), point(-1, 0.1, 0.1),
                                       point(nan, 0.1, 0.1)}))
                  .empty());
}

TEST(CertificateError, IsSortedByIndication) {
  const auto curve = error_curve(certificate({point(3, 3.03, {}), point(1, 1.0, {}), point(2, 1.98, {})}));
  ASSERT_EQ(curve.size(), 3U);
  EXPECT_EQ(curve[0].indication_l_min, 1.0);
  EXPECT_EQ(curve[1].indication_l_min, 1.98);
  EXPECT_EQ(curve[2].indication_l_min, 3.03);
}

TEST(CertificateError, AveragesPointsOfOneIndication) {
  const auto curve =
      error_curve(certificate({point(2.00, 2.0, {}), point(1, 1.0, {}), point(1.96, 2.0, {}), point(2.04, 2.0, {})}));
  ASSERT_EQ(curve.size(), 2U);
  EXPECT_EQ(curve[1].indication_l_min, 2.0);
  EXPECT_NEAR(curve[1].error, (0.0 + 0.04 / 1.96 - 0.04 / 2.04) / 3, rounding);
}

// printed input: 16.67 L/min, 40 CFR 50 Appendix L, section 7.4.1, 2015 edition; its bands of ±2, ±4, ±5, ±10 % to 0.01
// L/min follow by multiplication.
TEST(CertificateError, FindsTheBandsOfTheAmbientSamplersFlow) {
  const double printed_digit = 0.005 / 16.67;
  const auto error_of = [](double indication) {
    return error_curve(certificate({point(16.67, indication, {})})).at(0).error;
  };
  EXPECT_NEAR(error_of(16.34), -0.02, printed_digit);
  EXPECT_NEAR(error_of(17.00), 0.02, printed_digit);
  EXPECT_NEAR(error_of(16.00), -0.04, printed_digit);
  EXPECT_NEAR(error_of(17.34), 0.04, printed_digit);
  EXPECT_NEAR(error_of(15.84), -0.05, printed_digit);
  EXPECT_NEAR(error_of(17.50), 0.05, printed_digit);
  EXPECT_NEAR(error_of(15.00), -0.10, printed_digit * 1.01);
  EXPECT_NEAR(error_of(18.34), 0.10, printed_digit);
}

TEST(ErrorAt, IsLinearInTheIndicationBetweenThePoints) {
  const std::vector<ErrorPoint> curve = {{1.0, 0.01}, {2.0, 0.03}, {4.0, -0.01}};
  EXPECT_NEAR(error_at(curve, 1.5).error, 0.02, rounding);
  EXPECT_NEAR(error_at(curve, 2.5).error, 0.02, rounding);
  EXPECT_NEAR(error_at(curve, 3.5).error, 0.00, rounding);
  EXPECT_FALSE(error_at(curve, 3.5).is_outside_the_points);
}

TEST(ErrorAt, IsThePointsOwnErrorOnAPoint) {
  const std::vector<ErrorPoint> curve = {{1.0, 0.01}, {2.0, 0.03}, {4.0, -0.01}};
  for (const ErrorPoint& at : curve) {
    EXPECT_EQ(error_at(curve, at.indication_l_min).error, at.error);
    EXPECT_FALSE(error_at(curve, at.indication_l_min).is_outside_the_points);
  }
}

TEST(ErrorAt, IsFlatOutsideThePointsAndSaysSo) {
  const std::vector<ErrorPoint> curve = {{1.0, 0.01}, {2.0, 0.03}};
  EXPECT_EQ(error_at(curve, 0.999).error, 0.01);
  EXPECT_TRUE(error_at(curve, 0.999).is_outside_the_points);
  EXPECT_EQ(error_at(curve, 2.001).error, 0.03);
  EXPECT_TRUE(error_at(curve, 2.001).is_outside_the_points);
}

TEST(ErrorAt, OfASinglePointIsItsErrorEverywhere) {
  const std::vector<ErrorPoint> curve = {{2.0, 0.03}};
  EXPECT_EQ(error_at(curve, 2.0).error, 0.03);
  EXPECT_FALSE(error_at(curve, 2.0).is_outside_the_points);
  EXPECT_EQ(error_at(curve, 1.7).error, 0.03);
  EXPECT_TRUE(error_at(curve, 1.7).is_outside_the_points);
}

TEST(ErrorAt, OfNoPointsIsNothing) {
  EXPECT_EQ(error_at({}, 2.0).error, 0);
  EXPECT_FALSE(error_at({}, 2.0).is_outside_the_points);
}

TEST(ErrorAt, StaysBetweenItsNeighbours) {
  const std::vector<ErrorPoint> curve = {{0.5, -0.02}, {1.7, 0.013}, {2.2, 0.009}, {5.1, 0.031}};
  for (double q = 0.5; q <= 5.1; q += 0.01) {
    const double error = error_at(curve, q).error;
    EXPECT_GE(error, -0.02);
    EXPECT_LE(error, 0.031);
    EXPECT_NEAR(error_at(curve, q + 1e-9).error, error, 1e-9);  // no jump
  }
}

TEST(ErrorAt, OfAMissingIndicationIsNothing) {
  const std::vector<ErrorPoint> curve = {{1.0, 0.01}, {2.0, 0.03}};
  EXPECT_EQ(error_at(curve, std::nan("")).error, 0);
}

// The example of the formula, computed by hand; and a difference quotient of the correction itself.
TEST(StepThrough, FollowsTheSlopeOfTheCurve) {
  const std::vector<ErrorPoint> curve = {{1.0, 0.01}, {2.0, 0.03}};
  EXPECT_NEAR(step_through(curve, 1.5), 0.970588, 5e-7);
  const auto corrected = [&](double q) { return q / (1 + error_at(curve, q).error); };
  constexpr double h = 1e-6;
  for (const double q : {1.1, 1.5, 1.93}) {
    const double quotient = (corrected(q + h) - corrected(q - h)) / (2 * h) * q / corrected(q);
    EXPECT_NEAR(step_through(curve, q), quotient, 1e-9) << q;
  }
}

TEST(StepThrough, IsOneOutsideThePointsAndHalvesTheSlopesOnAPoint) {
  const std::vector<ErrorPoint> curve = {{1.0, 0.01}, {2.0, 0.03}};
  EXPECT_EQ(step_through(curve, 0.9), 1);
  EXPECT_EQ(step_through(curve, 2.1), 1);
  EXPECT_EQ(step_through({}, 1.5), 1);
  EXPECT_NEAR(step_through(curve, 2.0), 1 - 2.0 * 0.01 / 1.03, 1e-12);
}

// A rerun has the same bits only if sums are in the order of the file, also among points of one indication.
TEST(CertificateError, AveragesInTheOrderOfTheFile) {
  const std::vector<double> references = {1.9, 1.92, 1.96};
  Certificate all;
  double sum = 0;
  for (const double reference : references) {
    all.points.push_back(point(reference, 2.0, {}));
    sum += (2.0 - reference) / reference;
  }
  EXPECT_EQ(error_curve(all).at(0).error, sum / 3);
}

// derived: U / k, the relation of JCGM 100:2008 (GUM) 6.2.1; k is 2 where nobody says otherwise.
TEST(StandardUncertainty, OfAPointIsTheExpandedOneByItsCoverageFactor) {
  CertificatePoint known = point(2.0, 2.0, {});
  known.expanded_uncertainty_l_min = 0.03;
  Certificate made = certificate({known});
  EXPECT_NEAR(standard_uncertainty_l_min(made, known), 0.015, rounding);
  made.coverage_factor = 3;
  EXPECT_NEAR(standard_uncertainty_l_min(made, known), 0.01, rounding);
  EXPECT_TRUE(std::isnan(standard_uncertainty_l_min(made, point(2.0, 2.0, {}))));
}

// derived: slopes 0.02 and 0.01 an L/min meet at 2 L/min, where the error is 0.03: 1 - 2 x 0.015 / 1.03.
TEST(StepThrough, TakesTheMeanOfBothSlopesOnAPointBetween) {
  const std::vector<ErrorPoint> curve = {{1.0, 0.01}, {2.0, 0.03}, {4.0, 0.05}};
  EXPECT_NEAR(step_through(curve, 2.0), 1 - 2 * 0.015 / 1.03, 1e-12);
  EXPECT_NEAR(step_through(curve, 3.0), 1 - 3 * 0.01 / 1.04, 1e-12);
  for (const double towards : {1.0, 4.0})  // a mean of readings may miss the point in its last digit
    EXPECT_NEAR(step_through(curve, std::nextafter(2.0, towards)), 1 - 2 * 0.015 / 1.03, 1e-12);
}

}  // namespace
}  // namespace driftwarden::certificate_error_test

// SPDX-License-Identifier: MIT
#include "statistics/limit_crossing.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftwarden::limit_crossing_test {
namespace {

// own input: the as-found errors of line_fit_test.cpp; computed with SciPy 1.10 by
// tests/support/computed_statistics.py; R 4.2 agreed when it was asked.

constexpr std::array<double, 6> months{0, 12, 24, 37, 49, 60};
constexpr std::array<double, 6> error{0.05, 0.21, 0.30, 0.52, 0.61, 0.83};

TEST(LimitCrossing, ABandOfPredictionIsTheUsualOne) {
  const LineFit line = *fit_line(months, error);
  const Bounds at_72 = band_at(line, prediction_band(line, 0.95), 72);
  EXPECT_NEAR(at_72.lower, 0.798782537847, 1e-11);
  EXPECT_NEAR(at_72.upper, 1.085911286750, 1e-11);
}

TEST(LimitCrossing, OfAsFoundErrorsWithOnePercent) {
  const LineFit line = *fit_line(months, error);
  const LimitCrossing next_result = limit_crossing(line, 1.0, prediction_band(line, 0.95));
  EXPECT_TRUE(next_result.is_bounded);
  EXPECT_NEAR(next_result.x, 76.5988823347, 1e-9);
  EXPECT_NEAR(next_result.earliest, 65.7457864712, 1e-9);
  EXPECT_NEAR(next_result.latest, 90.0886, 5e-5);
  // A one-sided 95 % bound is the edge of the 90 % band.
  EXPECT_NEAR(limit_crossing(line, 1.0, prediction_band(line, 0.90)).earliest, 68.0984643244, 1e-9);
}

TEST(LimitCrossing, LiesWhereTheBandMeetsTheLimit) {
  const LineFit line = *fit_line(months, error);
  const Band band = prediction_band(line, 0.95, 3);
  const LimitCrossing crossing = limit_crossing(line, 1.0, band);
  EXPECT_NEAR(band_at(line, band, crossing.earliest).upper, 1.0, 1e-12);
  EXPECT_NEAR(band_at(line, band, crossing.latest).lower, 1.0, 1e-12);
}

TEST(LimitCrossing, OfADriftSinceAnAdjustment) {
  // own input: steps of 0.42, 0.53, 0.38, 0.07 % per 12 months; last left at 0.05 %, so 0.95 % are left; computed with
  // SciPy 1.10 by tests/support/computed_statistics.py.
  const std::array<double, 4> since{12, 12, 12, 12};
  const LineFit rate = *fit_through_origin(since, std::array<double, 4>{0.42, 0.53, 0.38, 0.07});
  const LimitCrossing crossing = limit_crossing(rate, 1.0 - 0.05, prediction_band(rate, 0.95));
  EXPECT_NEAR(crossing.x, 32.5714285714, 1e-9);
  EXPECT_NEAR(crossing.earliest, 9.45213972586, 1e-9);
}

TEST(LimitCrossing, OfAFallingLineIsItsMirrorImage) {
  std::array<double, 6> falling{};
  for (std::size_t i = 0; i < 6; ++i) falling[i] = -error[i];
  const LineFit line = *fit_line(months, falling);
  const LimitCrossing crossing = limit_crossing(line, -1.0, prediction_band(line, 0.95));
  EXPECT_NEAR(crossing.earliest, 65.7457864712, 1e-9);
  EXPECT_LT(crossing.earliest, crossing.latest);
}

TEST(LimitCrossing, HasNoFiniteBoundWithoutASignificantSlope) {
  // Slope and p by hand: 0.1 and far from significant, so the line meets the limit but its band need not.
  const LineFit line = *fit_line(std::array<double, 4>{0, 1, 2, 3}, std::array<double, 4>{0, 1, -1, 1});
  ASSERT_GT(line.slope_p(), 0.05);
  const LimitCrossing crossing = limit_crossing(line, 5, prediction_band(line, 0.95));
  EXPECT_NEAR(crossing.x, 1.5 + 4.75 / 0.1, 1e-9);
  EXPECT_FALSE(crossing.is_bounded);
  EXPECT_TRUE(std::isnan(crossing.earliest));
  EXPECT_TRUE(std::isnan(crossing.latest));
}

TEST(LimitCrossing, IsBoundedExactlyWhenTheSlopeIsSignificant) {
  // A = 0 is t = t_crit: the same data judged at coverages just below and above 1 - p.
  const LineFit line = *fit_line(std::array<double, 4>{0, 1, 2, 3}, std::array<double, 4>{0, 1, 1, 4});
  const double p = line.slope_p();
  EXPECT_TRUE(limit_crossing(line, 9, prediction_band(line, 1 - p - 1e-6)).is_bounded);
  EXPECT_FALSE(limit_crossing(line, 9, prediction_band(line, 1 - p + 1e-6)).is_bounded);
}

TEST(LimitCrossing, OfALevelLineIsNowhere) {
  const LineFit line = *fit_line(std::array<double, 3>{1, 2, 3}, std::array<double, 3>{4, 4, 4});
  EXPECT_TRUE(std::isnan(limit_crossing(line, 5, prediction_band(line, 0.95)).x));
  EXPECT_FALSE(limit_crossing(line, 5, prediction_band(line, 0.95)).is_bounded);
}

TEST(LimitCrossing, OfTwoPointsHasNoBound) {
  const LineFit line = *fit_line(std::array<double, 2>{0, 10}, std::array<double, 2>{1, 2});
  EXPECT_NEAR(limit_crossing(line, 3, prediction_band(line, 0.95)).x, 20, 1e-12);
  EXPECT_FALSE(limit_crossing(line, 3, prediction_band(line, 0.95)).is_bounded);
}

// By hand: a line of which q² var(b) is just its slope squared reaches no limit for certain on either side.
TEST(LimitCrossing, HasNoBoundWhereTheEdgeOfTheBandIsLevel) {
  LineFit line;
  line.slope = 2;
  line.slope_variance = 4;
  line.centre_variance = 1;
  EXPECT_FALSE(limit_crossing(line, -5, {1, 0}).is_bounded);
  EXPECT_FALSE(limit_crossing(line, 5, {1, 0}).is_bounded);
}

TEST(LimitCrossing, OfPointsOnALineIsOnePlace) {
  const LineFit line = *fit_line(std::array<double, 3>{0, 1, 2}, std::array<double, 3>{0, 1, 2});
  const LimitCrossing crossing = limit_crossing(line, 5, prediction_band(line, 0.95));
  EXPECT_TRUE(crossing.is_bounded);
  EXPECT_EQ(crossing.earliest, 5);
  EXPECT_EQ(crossing.latest, 5);
}

TEST(LimitCrossing, OfAMeanOfFourHasAQuarterOfTheVarianceOfOne) {
  const LineFit line = *fit_line(months, error);
  EXPECT_DOUBLE_EQ(prediction_band(line, 0.95, 4).extra_variance, line.residual_s * line.residual_s / 4);
}

}  // namespace
}  // namespace driftwarden::limit_crossing_test

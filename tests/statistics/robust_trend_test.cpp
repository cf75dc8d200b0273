// SPDX-License-Identifier: MIT
#include "statistics/robust_trend.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <numeric>
#include <vector>

namespace driftwarden::robust_trend_test {
namespace {

// own input: as-found errors in percent; B has one gross outlier and ties; computed with SciPy 1.10 by
// tests/support/computed_statistics.py; R 4.2 cor.test (exact, or with continuity correction) agreed when it was asked.

constexpr std::array<double, 6> months_a{0, 12, 24, 37, 49, 60};
constexpr std::array<double, 6> error_a{0.05, 0.21, 0.30, 0.52, 0.61, 0.83};
constexpr std::array<double, 10> months_b{0, 12, 24, 36, 48, 60, 72, 84, 96, 108};
constexpr std::array<double, 10> error_b{0.10, 0.15, 0.15, 0.22, 0.30, 0.28, 1.40, 0.41, 0.41, 0.50};

TEST(TheilSen, OfAsFoundErrors) {
  const auto trend = theil_sen(months_a, error_a, 0.95);
  ASSERT_TRUE(trend);
  EXPECT_NEAR(trend->slope, 0.0127027027027, 1e-13);
  EXPECT_NEAR(trend->intercept, 0.05, 1e-13);
}

TEST(TheilSen, IsNotMovedByAGrossOutlier) {
  const auto trend = theil_sen(months_b, error_b, 0.95);
  ASSERT_TRUE(trend);
  EXPECT_NEAR(trend->slope, 0.00364583333333, 1e-13);  // least squares says 0.00517
  EXPECT_NEAR(trend->slope_bounds.lower, 0.003, 1e-13);
  EXPECT_NEAR(trend->slope_bounds.upper, 0.00458333333333, 1e-13);
}

TEST(TheilSen, OfFewerThanFivePointsHasNoLimitsAt95Percent) {
  const std::array<double, 5> x{0, 1, 2, 3, 4};
  const std::array<double, 5> y{0, 1.1, 2, 3.2, 4};
  EXPECT_TRUE(std::isnan(theil_sen(std::span(x).first(4), std::span(y).first(4), 0.95)->slope_bounds.lower));
  EXPECT_FALSE(std::isnan(theil_sen(x, y, 0.95)->slope_bounds.lower));
}

TEST(TheilSen, CountsTiesOfPlaces) {
  // By hand: three pairs of places, so var S is (510 - 54)/18 = 25.33 and not 28.33; 12 slopes; at 97 % the ranks are
  // 0.54 and 12.46, rounded 1 and 12, the first and the last. Without the ties the first would be 0.22, and no limit.
  const std::array<double, 6> x{0, 0, 1, 1, 2, 2};
  const std::array<double, 6> y{0.0, 0.3, 1.1, 1.5, 2.2, 2.9};
  const Bounds bounds = theil_sen(x, y, 0.97)->slope_bounds;
  EXPECT_NEAR(bounds.lower, 0.7, 1e-12);  // 1.5 to 2.2
  EXPECT_NEAR(bounds.upper, 1.8, 1e-12);  // 1.1 to 2.9
}

TEST(TheilSen, PassesOverPairsOfOnePlace) {
  const std::array<double, 3> x{0, 0, 1};
  const std::array<double, 3> y{0, 9, 2};
  EXPECT_EQ(theil_sen(x, y, 0.95)->slope, -2.5);  // median of 2 and -7
  EXPECT_FALSE(theil_sen(std::array<double, 2>{1, 1}, std::array<double, 2>{1, 2}, 0.95));
  EXPECT_FALSE(theil_sen({}, {}, 0.95));
  EXPECT_FALSE(theil_sen(std::array<double, 2>{1, 2}, std::array<double, 2>{1, std::nan("")}, 0.95));
}

TEST(MannKendall, OfFewValuesIsExact) {
  const TrendTest test = mann_kendall(error_a);
  EXPECT_EQ(test.s, 15);
  EXPECT_NEAR(test.variance, 28.3333333333, 1e-10);
  EXPECT_NEAR(test.z, 2.63014202256, 1e-10);
  EXPECT_TRUE(test.is_exact);
  EXPECT_NEAR(test.p, 2.0 / 720, 1e-15);  // two of the 6! orders
}

TEST(MannKendall, OfTiedValuesIsApproximate) {
  const TrendTest test = mann_kendall(error_b);
  EXPECT_EQ(test.s, 35);
  EXPECT_NEAR(test.variance, 123, 1e-12);  // 125 less 18/18 for each of two pairs
  EXPECT_NEAR(test.z, 3.06567675787, 1e-10);
  EXPECT_FALSE(test.is_exact);
  EXPECT_NEAR(test.p, 0.00217177965570, 1e-12);
}

TEST(MannKendall, OfFallingValuesIsTheMirrorImage) {
  std::vector<double> falling(error_a.rbegin(), error_a.rend());
  EXPECT_EQ(mann_kendall(falling).s, -15);
  EXPECT_NEAR(mann_kendall(falling).z, -2.63014202256, 1e-10);
  EXPECT_NEAR(mann_kendall(falling).p, 2.0 / 720, 1e-15);
}

TEST(MannKendall, CanReachFivePercentOnlyFromFiveValues) {
  const std::array<double, 5> rising{1, 2, 3, 4, 5};
  EXPECT_NEAR(mann_kendall(std::span(rising).first(3)).p, 1.0 / 3, 1e-15);
  EXPECT_NEAR(mann_kendall(std::span(rising).first(4)).p, 1.0 / 12, 1e-15);
  EXPECT_NEAR(mann_kendall(rising).p, 1.0 / 60, 1e-15);
}

TEST(MannKendall, ExactProbabilitiesAreThoseOfAllOrders) {
  // Counts every order of six values.
  std::vector<double> order(6);
  std::iota(order.begin(), order.end(), 0.0);
  std::vector<std::int64_t> scores;
  do scores.push_back(mann_kendall(order).s);
  while (std::ranges::next_permutation(order).found);
  for (const std::vector<double>& values :
       {std::vector<double>{2, 1, 4, 3, 6, 5}, std::vector<double>{6, 1, 2, 5, 4, 3}}) {
    const TrendTest test = mann_kendall(values);
    const auto as_extreme =
        std::ranges::count_if(scores, [&](std::int64_t s) { return std::abs(s) >= std::abs(test.s); });
    EXPECT_NEAR(test.p, std::min(1.0, static_cast<double>(as_extreme) / 720), 1e-14) << test.s;
  }
}

TEST(MannKendall, OfEqualValuesShowsNoTrend) {
  const std::array<double, 4> equal{2, 2, 2, 2};
  EXPECT_EQ(mann_kendall(equal).s, 0);
  EXPECT_EQ(mann_kendall(equal).p, 1);
}

// input: 2.010 and the double after it are one figure, so a tie, and a slope of 0.
TEST(MannKendall, TakesRoundingNoiseForTies) {
  const double next = std::nextafter(2.010, 3);
  const std::array<double, 8> noise{2.010, 2.010, 2.010, 2.010, next, next, next, next};
  EXPECT_EQ(mann_kendall(noise).s, 0);
  EXPECT_EQ(mann_kendall(noise).p, 1);
  const std::array<double, 8> days{0, 1, 2, 3, 4, 5, 6, 7};
  const auto trend = theil_sen(days, noise, 0.95);
  ASSERT_TRUE(trend);
  EXPECT_EQ(trend->slope, 0);
}

TEST(MannKendall, OfOneValueOrAMissingOneIsNoFigure) {
  EXPECT_TRUE(std::isnan(mann_kendall(std::array<double, 1>{1}).p));
  EXPECT_TRUE(std::isnan(mann_kendall(std::array<double, 3>{1, std::nan(""), 2}).p));
}

TEST(TheilSen, TurnsAboutNoPlaceInParticular) {
  EXPECT_NEAR(theil_sen(std::array<double, 2>{1, 2}, std::array<double, 2>{2, 4}, 0.95)->intercept, 0, 1e-12);
}

TEST(TheilSen, OfEqualValuesHasASlopeOfZeroAndNoLimits) {
  const auto trend = theil_sen(std::array<double, 3>{1, 2, 3}, std::array<double, 3>{2, 2, 2}, 0.95);
  ASSERT_TRUE(trend);
  EXPECT_EQ(trend->slope, 0);
  EXPECT_TRUE(std::isnan(trend->slope_bounds.lower));
}

TEST(TheilSen, NeedsFinitePlaces) {
  EXPECT_FALSE(theil_sen(std::array<double, 3>{1, std::nan(""), 3}, std::array<double, 3>{1, 2, 4}, 0.95));
}

// By hand: of 2, 4, 1, 3 as many pairs rise as fall.
TEST(MannKendall, OfAsManyRisesAsFallsIsCertainlyNone) {
  const TrendTest test = mann_kendall(std::array<double, 4>{2, 4, 1, 3});
  EXPECT_EQ(test.s, 0);
  EXPECT_EQ(test.z, 0);
  EXPECT_EQ(test.p, 1);
}

// By hand: S = 1 less one towards zero; both orders of two values are as extreme.
TEST(MannKendall, OfTwoValuesSaysNothing) {
  const TrendTest test = mann_kendall(std::array<double, 2>{1, 2});
  EXPECT_EQ(test.s, 1);
  EXPECT_EQ(test.z, 0);
  EXPECT_EQ(test.p, 1);
}

TEST(MannKendall, IsExactForUpToTenIndependentValues) {
  std::vector<double> rising(11);
  std::iota(rising.begin(), rising.end(), 1.0);
  EXPECT_TRUE(mann_kendall(std::span(rising).first(10)).is_exact);
  EXPECT_NEAR(mann_kendall(std::span(rising).first(10)).p, 2.0 / 3628800, 1e-18);  // derived: two of the 10! orders
  EXPECT_FALSE(mann_kendall(rising).is_exact);
  EXPECT_FALSE(mann_kendall(std::span(rising).first(10), 2).is_exact);
}

}  // namespace
}  // namespace driftwarden::robust_trend_test

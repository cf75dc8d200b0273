// SPDX-License-Identifier: MIT
#include "statistics/line_fit.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "statistics/data_file.hpp"

namespace driftwarden::line_fit_test {
namespace {

// The standard error at 0, from the point on which the line turns.
double intercept_se(const LineFit& line) {
  return std::sqrt(line.centre_variance + line.centre_x * line.centre_x * line.slope_variance);
}

// own input: as-found errors in percent at months,; computed with NumPy 1.24 and
// SciPy 1.10 by tests/support/computed_statistics.py; R 4.2, GSL 2.7 and statsmodels 0.13 agreed when they were asked.

constexpr std::array<double, 6> months{0, 12, 24, 37, 49, 60};
constexpr std::array<double, 6> error{0.05, 0.21, 0.30, 0.52, 0.61, 0.83};

TEST(LineFit, AgreesWithTheCertifiedRegression) {
  // printed: NIST Statistical Reference Datasets, linear regression, Norris, certified values. Tolerance: the data lose
  // about four of 15 digits.
  const auto y = test::column_of("nist_strd_norris.csv", 0);
  const auto x = test::column_of("nist_strd_norris.csv", 1);
  const auto line = fit_line(x, y);
  ASSERT_TRUE(line);
  EXPECT_EQ(line->n, 36U);
  EXPECT_EQ(line->dof, 34);
  EXPECT_NEAR(line->intercept() / -0.262323073774029, 1, 1e-11);
  EXPECT_NEAR(line->slope / 1.00211681802045, 1, 1e-13);
  EXPECT_NEAR(intercept_se(*line) / 0.232818234301152, 1, 1e-11);
  EXPECT_NEAR(line->slope_se() / 0.000429796848199937, 1, 1e-11);
  EXPECT_NEAR(line->residual_s / 0.884796396144373, 1, 1e-11);
  EXPECT_NEAR(line->residual_squares / 26.6173985294224, 1, 1e-11);
}

TEST(LineFit, OfAsFoundErrors) {
  const auto line = fit_line(months, error);
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->intercept(), 0.0397314478464, 1e-12);
  EXPECT_NEAR(line->slope, 0.0125363258952, 1e-13);
  EXPECT_NEAR(intercept_se(*line), 0.0275967151602, 1e-12);
  EXPECT_NEAR(line->slope_se(), 0.000751551516400, 1e-14);
  EXPECT_NEAR(line->residual_s, 0.0380950879919, 1e-12);
  EXPECT_NEAR(line->slope_p() / 7.56781524e-05, 1, 1e-7);
  EXPECT_NEAR(line->at(72), 0.942346912299, 1e-11);
}

TEST(LineFit, LosesNothingFarFromTheOrigin) {
  // Days as counted since 1970, and an offset in y.
  std::array<double, 6> shifted_months{};
  std::array<double, 6> shifted_error{};
  for (std::size_t i = 0; i < 6; ++i) {
    shifted_months[i] = months[i] + 1048576;
    shifted_error[i] = error[i] + 1024;
  }
  EXPECT_NEAR(fit_line(shifted_months, shifted_error)->slope, 0.0125363258952, 1e-13);
  EXPECT_NEAR(fit_line(shifted_months, shifted_error)->slope_se(), 0.000751551516400, 1e-13);
}

TEST(LineFit, OfStepsSinceTheLastAdjustment) {
  // own input: the drift in percent since the as-left value before, each over 12 months; computed with NumPy 1.24 by
  // tests/support/computed_statistics.py.
  const std::array<double, 4> since{12, 12, 12, 12};
  const std::array<double, 4> drift{0.42, 0.53, 0.38, 0.07};
  const auto rate = fit_through_origin(since, drift);
  ASSERT_TRUE(rate);
  EXPECT_NEAR(rate->slope, 0.0291666666667, 1e-12);
  EXPECT_NEAR(rate->residual_s, 0.197146307768, 1e-12);
  EXPECT_NEAR(rate->slope_se(), 0.00821442949035, 1e-13);
  EXPECT_EQ(rate->dof, 3);
  EXPECT_EQ(rate->at(0), 0);
}

TEST(LineFit, OfTwoPointsHasNoStandardErrors) {
  const auto line = fit_line(std::array<double, 2>{0, 10}, std::array<double, 2>{1, 2});
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->slope, 0.1, 1e-16);
  EXPECT_TRUE(std::isnan(line->slope_se()));
  EXPECT_TRUE(std::isnan(line->slope_p()));
}

TEST(LineFit, NeedsTwoPlaces) {
  EXPECT_FALSE(fit_line({}, {}));
  EXPECT_FALSE(fit_line(std::array<double, 1>{1}, std::array<double, 1>{1}));
  EXPECT_FALSE(fit_line(std::array<double, 3>{5, 5, 5}, std::array<double, 3>{1, 2, 3}));
  EXPECT_FALSE(fit_line(std::array<double, 2>{1, std::nan("")}, std::array<double, 2>{1, 2}));
  EXPECT_FALSE(fit_through_origin(std::array<double, 1>{0}, std::array<double, 1>{1}));
}

TEST(LineFit, OfAConstantHasNoSlope) {
  const auto line = fit_line(std::array<double, 3>{1, 2, 3}, std::array<double, 3>{4, 4, 4});
  ASSERT_TRUE(line);
  EXPECT_EQ(line->slope, 0);
}

TEST(LineFit, NeedsFiniteFigures) {
  EXPECT_FALSE(fit_line(std::array<double, 3>{1, 2, 3}, std::array<double, 3>{1, std::nan(""), 2}));
  EXPECT_FALSE(fit_through_origin(std::array<double, 2>{1, 2}, std::array<double, 2>{1, std::nan("")}));
}

TEST(LineFit, ThroughTheOriginMayBeOfSmallSteps) {
  EXPECT_NEAR(fit_through_origin(std::array<double, 2>{0.1, 0.1}, std::array<double, 2>{0.2, 0.2})->slope, 2, 1e-12);
}

// By hand: 1.4 by (1 · 1 + 2 · 3) / 5 leaves -0.4 and 0.2, with one degree of freedom.
TEST(LineFit, ThroughTheOriginAndTwoPointsHasAStandardError) {
  EXPECT_NEAR(fit_through_origin(std::array<double, 2>{1, 2}, std::array<double, 2>{1, 3})->residual_s, std::sqrt(0.2),
              1e-12);
}

// derived: in either group x lies 0.5 from its mean, y 0.2 and 0.1; b1 = (0.2 + 0.1)·0.5·2 / (4·0.25) = 0.3; every
// residual is 0.05, so s² = 4·0.0025 / (4 - 2 - 1) = 0.01.
TEST(ParallelLines, TakeTheirSlopeInsideEachGroup) {
  const std::array<double, 4> x{0, 1, 2, 3};
  const std::array<double, 4> y{1.0, 1.4, 3.1, 3.3};
  const std::array<std::size_t, 4> groups{0, 0, 1, 1};
  const auto line = fit_parallel_lines(x, y, groups);
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->slope, 0.3, 1e-12);
  EXPECT_NEAR(line->at(3), 3.35, 1e-12);  // of the last group
  EXPECT_EQ(line->dof, 1);
  EXPECT_NEAR(line->residual_s, 0.1, 1e-12);
  EXPECT_NEAR(line->centre_variance, 0.01 / 2, 1e-12);
  EXPECT_NEAR(line->slope_variance, 0.01 / 1, 1e-12);
}

TEST(ParallelLines, OfOneGroupAreTheLine) {
  const auto line = fit_line(months, error);
  const auto parallel = fit_parallel_lines(months, error, std::array<std::size_t, 6>{});
  ASSERT_TRUE(parallel);
  EXPECT_DOUBLE_EQ(parallel->slope, line->slope);
  EXPECT_NEAR(parallel->residual_s, line->residual_s, 1e-12);
  EXPECT_NEAR(parallel->centre_variance, line->centre_variance, 1e-15);
  EXPECT_NEAR(parallel->slope_variance, line->slope_variance, 1e-15);
}

// A step between two groups, however large, is no slope.
TEST(ParallelLines, DoNotSeeAStepBetweenGroups) {
  std::array<double, 6> stepped = error;
  for (std::size_t i = 3; i < stepped.size(); ++i) stepped[i] += 40;
  const std::array<std::size_t, 6> groups{0, 0, 0, 1, 1, 1};
  const auto before = fit_parallel_lines(months, error, groups);
  const auto after = fit_parallel_lines(months, stepped, groups);
  ASSERT_TRUE(after);
  EXPECT_NEAR(after->slope, before->slope, 1e-12);
  EXPECT_NEAR(after->residual_s, before->residual_s, 1e-9);
}

TEST(ParallelLines, NeedTwoPlacesInsideAGroup) {
  const std::array<double, 2> x{0, 1};
  EXPECT_FALSE(fit_parallel_lines(x, x, std::array<std::size_t, 2>{0, 1}));
  EXPECT_FALSE(fit_parallel_lines({}, {}, {}));
}

}  // namespace
}  // namespace driftwarden::line_fit_test

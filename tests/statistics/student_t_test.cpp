// SPDX-License-Identifier: MIT
#include "statistics/student_t.hpp"

#include <gtest/gtest.h>

#include <array>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>
#include <thread>
#include <utility>
#include <vector>

#include "statistics/normal_distribution.hpp"

namespace driftwarden::student_t_test {
namespace {

// input: probabilities, where nothing else is said.

constexpr double infinite = std::numeric_limits<double>::infinity();

TEST(StudentT, CoverageFactorsAreThoseOfTheGum) {
  // printed: JCGM 100:2008, table G.2, two decimals.
  const std::array<std::pair<double, double>, 6> at_95{
      {{1, 12.71}, {2, 4.30}, {3, 3.18}, {4, 2.78}, {5, 2.57}, {9, 2.26}}};
  for (const auto& [dof, k] : at_95) EXPECT_NEAR(coverage_factor(0.95, dof), k, 0.005) << dof;
  const std::array<std::pair<double, double>, 6> at_9545{
      {{1, 13.97}, {2, 4.53}, {3, 3.31}, {4, 2.87}, {5, 2.65}, {9, 2.32}}};
  for (const auto& [dof, k] : at_9545) EXPECT_NEAR(coverage_factor(0.9545, dof), k, 0.005) << dof;
  EXPECT_NEAR(coverage_factor(0.99, 16), 2.92, 0.005);  // GUM H.1.6
}

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
TEST(StudentT, CoverageFactorHasEnoughDigits) {
  EXPECT_NEAR(coverage_factor(0.95, 4), 2.77644510519779, 1e-12);
  EXPECT_NEAR(coverage_factor(0.99, 16), 2.92078162, 1e-8);
  EXPECT_NEAR(coverage_factor(0.95, infinite), 1.959963984540054, 1e-13);
}

TEST(StudentT, WithOneDegreeOfFreedomIsTheCauchyDistribution) {
  // Closed form: cdf = 1/2 + atan(t)/π.
  for (const double t : {-3.0, -0.5, 0.0, 1.0, 20.0}) {
    EXPECT_NEAR(student_t_cdf(t, 1), 0.5 + std::atan(t) / std::acos(-1.0), 1e-15);
  }
  EXPECT_NEAR(student_t_quantile(0.75, 1), 1, 1e-14);
}

TEST(StudentT, WithTwoDegreesOfFreedomHasAClosedForm) {
  // derived: t = (2p - 1)/√(2p(1 - p)).
  for (const double p : {0.001, 0.2, 0.5, 0.9, 0.9999}) {
    EXPECT_NEAR(student_t_quantile(p, 2), (2 * p - 1) / std::sqrt(2 * p * (1 - p)), 1e-11);
  }
}

TEST(StudentT, WithInfiniteDegreesOfFreedomIsNormal) {
  EXPECT_EQ(student_t_cdf(1.5, infinite), normal_cdf(1.5));
  EXPECT_EQ(student_t_quantile(0.3, infinite), normal_quantile(0.3));
}

TEST(StudentT, ConformsLessSurelyThanTheNormalDistributionWithFewReplicates) {
  EXPECT_NEAR(student_t_cdf(2, 4), 0.941941738,
              1e-8);  // own input: SciPy 1.10, computed_statistics.py; normal 0.977249868
}

TEST(StudentT, TakesFractionalDegreesOfFreedom) {
  const double between = coverage_factor(0.95, 4.5);
  EXPECT_LT(between, coverage_factor(0.95, 4));
  EXPECT_GT(between, coverage_factor(0.95, 5));
}

TEST(StudentT, OfManyDegreesOfFreedomIsThatOfBoost) {
  for (const double probability : {0.00004, 0.001, 0.02275, 0.025, 0.3, 0.5, 0.975, 0.99995}) {
    for (const double dof : {999.0, 1000.0, 1000.5, 1234.0, 5000.0, 1e5, 1e7, 1e12}) {
      const double expected = boost::math::quantile(boost::math::students_t(dof), probability);
      EXPECT_NEAR(student_t_quantile(probability, dof), expected, 2e-15 * std::fabs(expected))
          << probability << ' ' << dof;
    }
  }
  // Beyond its range the expansion is not used.
  const double far = boost::math::quantile(boost::math::students_t(1000.0), 1e-12);
  EXPECT_NEAR(student_t_quantile(1e-12, 1000), far, 1e-14 * std::fabs(far));
}

TEST(StudentT, QuantileIsTheSameTheSecondTimeAndInManyThreads) {
  std::vector<std::vector<double>> found(4);
  std::vector<std::thread> threads;
  for (auto& quantiles : found) {
    threads.emplace_back([&quantiles] {
      for (int round = 0; round < 2; ++round) {
        for (int dof = 1; dof <= 2000; ++dof) quantiles.push_back(student_t_quantile(0.975, dof));
      }
    });
  }
  for (auto& thread : threads) thread.join();
  for (std::size_t i = 0; i < 2000; ++i) {
    EXPECT_EQ(found[0][i], found[0][i + 2000]);
    for (const auto& quantiles : found) EXPECT_EQ(quantiles[i], found[0][i]);
    EXPECT_NEAR(student_t_cdf(found[0][i], static_cast<double>(i + 1)), 0.975, 1e-12);
  }
}

TEST(StudentT, RefusesTheImpossible) {
  EXPECT_TRUE(std::isnan(student_t_cdf(1, 0)));
  EXPECT_TRUE(std::isnan(student_t_cdf(std::nan(""), 3)));
  EXPECT_TRUE(std::isnan(student_t_quantile(1.1, 3)));
  EXPECT_TRUE(std::isnan(student_t_quantile(0.5, -1)));
  EXPECT_TRUE(std::isnan(student_t_quantile(0.5, std::nan(""))));
  EXPECT_EQ(student_t_quantile(1, 3), infinite);
  EXPECT_EQ(student_t_quantile(0, 3), -infinite);
  EXPECT_EQ(student_t_cdf(-infinite, 3), 0);
}

// own input: the point of 4 degrees of freedom above; computed with SciPy 1.10 by tests/support/computed_statistics.py.
TEST(StudentT, TwoSidedPHasTwoTails) {
  EXPECT_NEAR(student_t_two_sided_p(2.77644510519779, 4), 0.05, 1e-13);
  EXPECT_NEAR(student_t_two_sided_p(-2.77644510519779, 4), 0.05, 1e-13);
  EXPECT_EQ(student_t_two_sided_p(0, 4), 1);
}

TEST(StudentT, RefusesTheImpossibleAlsoAtTheEnds) {
  for (const double dof : {-1.0, 0.0}) {
    EXPECT_TRUE(std::isnan(student_t_cdf(infinite, dof))) << dof;
    EXPECT_TRUE(std::isnan(student_t_quantile(0, dof))) << dof;
    EXPECT_TRUE(std::isnan(student_t_quantile(1, dof))) << dof;
  }
  EXPECT_TRUE(std::isnan(student_t_cdf(1, -infinite)));
  EXPECT_EQ(student_t_cdf(infinite, 3), 1);
  EXPECT_EQ(student_t_cdf(-infinite, 3), 0);
  EXPECT_EQ(student_t_quantile(0, 3), -infinite);
  EXPECT_EQ(student_t_quantile(1, 3), infinite);
}

// More questions than the store has places: each has its own answer.
TEST(StudentT, QuantileGrowsWithTheProbabilityAndShrinksWithTheDegreesOfFreedom) {
  double before = -std::numeric_limits<double>::infinity();
  for (int i = 1; i < 4096; ++i) {
    const double quantile = student_t_quantile(i / 4096.0, 5);
    EXPECT_GT(quantile, before) << i;
    before = quantile;
  }
  before = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 4096; ++i) {
    const double quantile = student_t_quantile(0.975, 1 + i / 64.0);
    EXPECT_LT(quantile, before) << i;
    before = quantile;
  }
}

}  // namespace
}  // namespace driftwarden::student_t_test

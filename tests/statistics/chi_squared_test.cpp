// SPDX-License-Identifier: MIT
#include "statistics/chi_squared.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "statistics/normal_distribution.hpp"

namespace driftwarden::chi_squared_test {
namespace {

TEST(ChiSquared, HasTheCriticalValuesOfThePrintedTable) {
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, three decimals.
  EXPECT_NEAR(chi_squared_quantile(0.95, 1), 3.841, 5e-4);
  EXPECT_NEAR(chi_squared_quantile(0.95, 9), 16.919, 5e-4);
  EXPECT_NEAR(chi_squared_quantile(0.99, 24), 42.980, 5e-4);
  EXPECT_NEAR(chi_squared_quantile(0.05, 12), 5.226, 5e-4);
}

TEST(ChiSquared, WithTwoDegreesOfFreedomIsExponential) {
  for (const double x : {0.1, 2.0, 30.0}) EXPECT_NEAR(chi_squared_upper_tail(x, 2) / std::exp(-x / 2), 1, 1e-13);
}

TEST(ChiSquared, WithOneDegreeOfFreedomIsASquaredNormal) {
  EXPECT_NEAR(chi_squared_upper_tail(4, 1), 2 * normal_cdf(-2), 1e-15);
  EXPECT_NEAR(chi_squared_cdf(4, 1), 1 - 2 * normal_cdf(-2), 1e-15);
}

TEST(ChiSquared, GivesThePublishedFactorOfASamplingBudget) {
  // printed: NIOSH Manual of Analytical Methods, 4th edition, chapter P (15 March 2003), page 4 ff.: 2.97 for twelve
  // degrees of freedom, 1.96·√(12/χ²_0.05). More digits are computed with SciPy 1.10 by
  // tests/support/computed_statistics.py.
  EXPECT_NEAR(1.96 * std::sqrt(12 / chi_squared_quantile(0.05, 12)), 2.97, 0.005);
  EXPECT_NEAR(1.96 * std::sqrt(12 / chi_squared_quantile(0.05, 12)), 2.970030, 1e-6);
}

TEST(ChiSquared, RefusesTheImpossible) {
  EXPECT_TRUE(std::isnan(chi_squared_cdf(-1, 3)));
  EXPECT_TRUE(std::isnan(chi_squared_cdf(1, 0)));
  EXPECT_TRUE(std::isnan(chi_squared_quantile(1.5, 3)));
  EXPECT_EQ(chi_squared_upper_tail(std::numeric_limits<double>::infinity(), 3), 0);
  EXPECT_EQ(chi_squared_quantile(1, 3), std::numeric_limits<double>::infinity());
}

TEST(ChiSquared, HoldsAtTheEnds) {
  EXPECT_EQ(chi_squared_cdf(0, 3), 0);
  EXPECT_EQ(chi_squared_upper_tail(0, 3), 1);
  EXPECT_EQ(chi_squared_quantile(0, 3), 0);
  EXPECT_EQ(chi_squared_cdf(std::numeric_limits<double>::infinity(), 3), 1);
  EXPECT_TRUE(std::isnan(chi_squared_cdf(1, std::numeric_limits<double>::infinity())));
  EXPECT_TRUE(std::isnan(chi_squared_quantile(-0.1, 3)));
  EXPECT_TRUE(std::isnan(chi_squared_quantile(0.5, 0)));
}

TEST(ChiSquared, RefusesTheImpossibleAlsoAtTheEnds) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  for (const double dof : {-1.0, 0.0, infinite}) {
    EXPECT_TRUE(std::isnan(chi_squared_cdf(infinite, dof))) << dof;
    EXPECT_TRUE(std::isnan(chi_squared_upper_tail(infinite, dof))) << dof;
    EXPECT_TRUE(std::isnan(chi_squared_quantile(1, dof))) << dof;
  }
  EXPECT_TRUE(std::isnan(chi_squared_cdf(-infinite, 3)));
}

}  // namespace
}  // namespace driftwarden::chi_squared_test

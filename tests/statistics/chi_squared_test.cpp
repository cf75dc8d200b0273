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
  EXPECT_NEAR(chi_squared_cdf(3.841, 1), 0.95, 2e-5);
  EXPECT_NEAR(chi_squared_cdf(16.919, 9), 0.95, 2e-5);
  EXPECT_NEAR(chi_squared_cdf(42.980, 24), 0.99, 2e-5);
  EXPECT_NEAR(chi_squared_cdf(5.226, 12), 0.05, 2e-5);
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
  const auto left_out_by = [](double factor) { return chi_squared_cdf(12 * std::pow(1.96 / factor, 2), 12); };
  EXPECT_NEAR(left_out_by(2.97), 0.05, 5e-4);
  EXPECT_NEAR(left_out_by(2.970030), 0.05, 1e-7);
}

TEST(ChiSquared, RefusesTheImpossible) {
  EXPECT_TRUE(std::isnan(chi_squared_cdf(-1, 3)));
  EXPECT_TRUE(std::isnan(chi_squared_cdf(1, 0)));
  EXPECT_EQ(chi_squared_upper_tail(std::numeric_limits<double>::infinity(), 3), 0);
}

TEST(ChiSquared, HoldsAtTheEnds) {
  EXPECT_EQ(chi_squared_cdf(0, 3), 0);
  EXPECT_EQ(chi_squared_upper_tail(0, 3), 1);
  EXPECT_EQ(chi_squared_cdf(std::numeric_limits<double>::infinity(), 3), 1);
  EXPECT_TRUE(std::isnan(chi_squared_cdf(1, std::numeric_limits<double>::infinity())));
}

TEST(ChiSquared, RefusesTheImpossibleAlsoAtTheEnds) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  for (const double dof : {-1.0, 0.0, infinite}) {
    EXPECT_TRUE(std::isnan(chi_squared_cdf(infinite, dof))) << dof;
    EXPECT_TRUE(std::isnan(chi_squared_upper_tail(infinite, dof))) << dof;
  }
  EXPECT_TRUE(std::isnan(chi_squared_cdf(-infinite, 3)));
}

}  // namespace
}  // namespace driftwarden::chi_squared_test

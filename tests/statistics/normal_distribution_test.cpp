// SPDX-License-Identifier: MIT
#include "statistics/normal_distribution.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "statistics/quadrature.hpp"

namespace driftwarden::normal_distribution_test {
namespace {

TEST(NormalDistribution, HasTheProbabilitiesOfThePrintedTable) {
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, five decimals (area from 0 to z, plus a half).
  EXPECT_NEAR(normal_cdf(1.00), 0.84134, 5e-6);
  EXPECT_NEAR(normal_cdf(1.96), 0.97500, 5e-6);
  EXPECT_NEAR(normal_cdf(2.00), 0.97725, 5e-6);
  EXPECT_NEAR(normal_cdf(3.00), 0.99865, 5e-6);
}

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
TEST(NormalDistribution, KeepsItsDigitsFarOut) {
  EXPECT_NEAR(normal_cdf(-6) / 9.865876450376981e-10, 1, 1e-12);
  EXPECT_NEAR(normal_cdf(-30) / 4.906713927148187e-198, 1, 1e-12);
}

TEST(NormalDistribution, IsTheIntegralOfItsDensity) {
  for (const double z : {-2.0, 0.3, 1.7}) {
    EXPECT_NEAR(test::integral(test::normal_density, -10, z, 2000), normal_cdf(z), 1e-11);
  }
}

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
TEST(NormalDistribution, QuantileUndoesTheProbability) {
  for (const double z : {-5.0, -1.0, 0.0, 0.5, 3.0}) EXPECT_NEAR(normal_quantile(normal_cdf(z)), z, 1e-12);
  EXPECT_NEAR(normal_quantile(0.95), 1.6448536269514722, 1e-14);  // 1.645 of every table
  EXPECT_NEAR(normal_quantile(0.75), 0.674489750196082, 1e-14);
}

TEST(NormalDistribution, RefusesTheImpossible) {
  EXPECT_TRUE(std::isnan(normal_quantile(-0.1)));
  EXPECT_TRUE(std::isnan(normal_quantile(std::nan(""))));
  EXPECT_EQ(normal_quantile(1), std::numeric_limits<double>::infinity());
  EXPECT_EQ(normal_quantile(0), -std::numeric_limits<double>::infinity());
}

}  // namespace
}  // namespace driftwarden::normal_distribution_test

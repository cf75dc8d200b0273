// SPDX-License-Identifier: MIT
#include "statistics/bivariate_normal.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "statistics/normal_distribution.hpp"

namespace driftwarden::bivariate_normal_test {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

Correlation by(double rho) { return {rho, std::sqrt(1 - rho * rho)}; }

TEST(OwensT, HasItsClosedForms) {
  // derived: at h 0 the integral is arctan(a)/2π; at a 1 it is Φ(h)Φ(-h)/2; at a infinite Φ(-|h|)/2.
  for (const double a : {0.3, 1.0, 2.0, 40.0}) EXPECT_NEAR(owens_t(0, a), std::atan(a) / (2 * std::numbers::pi), 1e-15);
  for (const double h : {-3.0, 0.0, 0.4, 2.0, 6.0}) {
    EXPECT_NEAR(owens_t(h, 1), normal_cdf(h) * normal_cdf(-h) / 2, 1e-15) << h;
    EXPECT_NEAR(owens_t(h, infinite), normal_cdf(-std::fabs(h)) / 2, 1e-15) << h;
  }
}

TEST(OwensT, IsThatOfSciPy) {
  // own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(owens_t(0.5, 0.3), 0.040786707344250106, 1e-15);
  EXPECT_NEAR(owens_t(1.2, 0.9), 0.04878451042649655, 1e-15);
  EXPECT_NEAR(owens_t(0.7, 4), 0.12092541878952418, 1e-15);
  EXPECT_NEAR(owens_t(2.5, 1.5), 0.0031046570510844984, 1e-15);
}

TEST(OwensT, IsEvenInHAndOddInA) {
  EXPECT_EQ(owens_t(-1.2, 0.9), owens_t(1.2, 0.9));
  EXPECT_EQ(owens_t(1.2, -3), -owens_t(1.2, 3));
  EXPECT_EQ(owens_t(infinite, 3), 0);
  EXPECT_EQ(owens_t(2, 0), 0);
}

TEST(BivariateNormal, HasTheOrthantsProbabilities) {
  // derived: 1/4 + arcsin(ρ)/2π; for ρ 0.5 a third.
  EXPECT_NEAR(bivariate_normal_cdf(0, 0, by(0.5)), 1.0 / 3, 1e-15);
  EXPECT_NEAR(bivariate_normal_cdf(0, 0, by(-0.5)), 1.0 / 6, 1e-15);
  EXPECT_NEAR(bivariate_normal_cdf(0, 0, by(0)), 0.25, 1e-15);
}

TEST(BivariateNormal, IsTheIntegralOfItsDensity) {
  // own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(bivariate_normal_cdf(1, -0.5, by(0.3)), 0.28313842024448094, 1e-14);
  EXPECT_NEAR(bivariate_normal_cdf(0.2, 0.1, by(0.99)), 0.531941464693111, 1e-14);
  EXPECT_NEAR(bivariate_normal_cdf(-1.5, 2, by(-0.6)), 0.056301497792122145, 1e-14);
  EXPECT_NEAR(bivariate_normal_cdf(0, 1, by(0.6)), 0.47803709981595066, 1e-14);
}

TEST(BivariateNormal, OfIndependentQuantitiesIsAProduct) {
  for (const double x : {-2.0, 0.0, 1.3}) {
    for (const double y : {-0.7, 0.0, 2.2})
      EXPECT_NEAR(bivariate_normal_cdf(x, y, by(0)), normal_cdf(x) * normal_cdf(y), 1e-15) << x << ' ' << y;
  }
}

TEST(BivariateNormal, WithoutALimitIsTheOtherAlone) {
  EXPECT_EQ(bivariate_normal_cdf(infinite, 0.7, by(0.4)), normal_cdf(0.7));
  EXPECT_EQ(bivariate_normal_cdf(0.7, infinite, by(0.4)), normal_cdf(0.7));
  EXPECT_EQ(bivariate_normal_cdf(-infinite, 0.7, by(0.4)), 0);
  EXPECT_EQ(bivariate_normal_cdf(infinite, infinite, by(0.4)), 1);
}

}  // namespace
}  // namespace driftwarden::bivariate_normal_test

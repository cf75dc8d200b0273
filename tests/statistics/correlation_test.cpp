// SPDX-License-Identifier: MIT
#include "statistics/correlation.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftwarden::correlation_test {
namespace {

TEST(Correlation, OfTheGumsSimultaneousReadings) {
  // printed: JCGM 100:2008, table H.2, readings, and correlations of the means printed as -0.36, 0.86, -0.65.
  const std::array<double, 5> volt{5.007, 4.994, 5.005, 4.990, 4.999};
  const std::array<double, 5> ampere{0.019663, 0.019639, 0.019640, 0.019685, 0.019678};
  const std::array<double, 5> radian{1.0456, 1.0438, 1.0468, 1.0428, 1.0433};
  EXPECT_NEAR(correlation(volt, ampere), -0.36, 0.005);
  EXPECT_NEAR(correlation(volt, radian), 0.86, 0.005);
  EXPECT_NEAR(correlation(ampere, radian), -0.65, 0.005);
}

TEST(Correlation, IsOneOnALineAndNoneWithoutSpread) {
  EXPECT_NEAR(correlation(std::array<double, 3>{1, 2, 4}, std::array<double, 3>{12, 14, 18}), 1, 1e-15);
  EXPECT_NEAR(correlation(std::array<double, 3>{1, 2, 4}, std::array<double, 3>{-1, -2, -4}), -1, 1e-15);
  EXPECT_TRUE(std::isnan(correlation(std::array<double, 2>{1, 2}, std::array<double, 2>{3, 3})));
  EXPECT_TRUE(std::isnan(correlation({}, {})));
}

TEST(SharedInputs, OneCalibratorCancelsInTheDifference) {
  // own input: 1.002 times a mean of five readings, before 2.0112 (u 0.00128062) and after 1.9584 (u 0.00120830),
  // display step 0.001, factor's u 0.005; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  const double c = 1.002;
  const double display = 0.0005 / std::sqrt(3.0);
  const std::array<double, 5> before{c * 0.001280624847, c * display, 0, 0, 2.0112 * 0.005};
  const std::array<double, 5> after{0, 0, c * 0.001208304597, c * display, 1.9584 * 0.005};
  const SharedInputs found = shared_inputs(before, after);
  EXPECT_NEAR(found.u_first, 0.010141665, 1e-9);
  EXPECT_NEAR(found.u_second, 0.009870804, 1e-9);
  EXPECT_NEAR(found.correlation, 0.983637024406, 1e-9);
  EXPECT_NEAR(found.u_difference, 0.00183014819072, 1e-11);
  EXPECT_NEAR(found.u_sum / 2, 0.00996523, 1e-8);  // of the mean
  // Were they independent, the difference would look eight times as uncertain.
  EXPECT_NEAR(std::hypot(found.u_first, found.u_second), 0.0141522488107, 1e-10);
  // u²(b - a) = u²(a) + u²(b) - 2 u(a, b)
  EXPECT_NEAR(found.u_difference * found.u_difference,
              found.u_first * found.u_first + found.u_second * found.u_second - 2 * found.covariance, 1e-17);
}

TEST(SharedInputs, WithoutUncertaintyHaveNoCorrelation) {
  EXPECT_TRUE(std::isnan(shared_inputs(std::array<double, 1>{0}, std::array<double, 1>{1}).correlation));
}

TEST(CorrelationMatrix, IsSymmetricWithOnesOnTheDiagonal) {
  CorrelationMatrix matrix(3);
  matrix.set(0, 2, -0.4);
  EXPECT_EQ(matrix.at(0, 2), -0.4);
  EXPECT_EQ(matrix.at(2, 0), -0.4);
  EXPECT_EQ(matrix.at(1, 1), 1);
  EXPECT_EQ(matrix.at(0, 1), 0);
}

}  // namespace
}  // namespace driftwarden::correlation_test

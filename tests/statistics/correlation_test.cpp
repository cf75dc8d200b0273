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

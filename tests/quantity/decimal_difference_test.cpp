// SPDX-License-Identifier: MIT
#include "quantity/decimal_difference.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace driftwarden::decimal_difference_test {
namespace {

// derived: differences of decimals, taken on paper.
TEST(DecimalDifference, IsTheDecimalThatAPersonWouldWrite) {
  EXPECT_NE(14.718 - 14.1, 0.618);
  EXPECT_EQ(decimal_difference(14.718, 14.1), 0.618);
  EXPECT_EQ(decimal_difference(15.842, 15.31), 0.532);
  EXPECT_EQ(decimal_difference(15.31, 15.842), -0.532);
  EXPECT_EQ(decimal_difference(15.34, 15.31), 0.03);
  EXPECT_EQ(decimal_difference(14, 14.004), -0.004);
  EXPECT_EQ(decimal_difference(14.5, 14.5), 0);
  EXPECT_EQ(decimal_difference(1000000.25, 0.001), 1000000.249);
}

// input: figures with too many digits for a whole number, and with exponents.
TEST(DecimalDifference, IsThatOfDoublesBeyondWhatDecimalsHold) {
  EXPECT_EQ(decimal_difference(1.0 / 3, 0.1), 1.0 / 3 - 0.1);
  EXPECT_EQ(decimal_difference(1e300, 1), 1e300 - 1);
  EXPECT_EQ(decimal_difference(1e-20, 1e-21), 1e-20 - 1e-21);
  EXPECT_EQ(decimal_difference(9e14, 0.001), 9e14 - 0.001);
}

TEST(DecimalDifference, IsMissingWhereEitherIs) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(std::isnan(decimal_difference(none, 1)));
  EXPECT_TRUE(std::isnan(decimal_difference(1, none)));
  EXPECT_TRUE(std::isinf(decimal_difference(std::numeric_limits<double>::infinity(), 1)));
}

}  // namespace
}  // namespace driftwarden::decimal_difference_test

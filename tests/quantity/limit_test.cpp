// SPDX-License-Identifier: MIT
#include "quantity/limit.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace driftwarden::limit_test {
namespace {

// derived: which side of a limit a decimal lies on, by sight.

constexpr double infinity = std::numeric_limits<double>::infinity();

TEST(Limit, HasAFigureBelowOnOrAboveIt) {
  EXPECT_EQ(side_of_limit(4.99, 5.0), Side::below);
  EXPECT_EQ(side_of_limit(5.0, 5.0), Side::on);
  EXPECT_EQ(side_of_limit(5.01, 5.0), Side::above);
}

// The drift from 2.000 to 1.900 L/min is -5 % exactly, but in binary it comes out as -0.05000000000000004.
TEST(Limit, IsMetByAFigureThatBinaryArithmeticPutsBesideIt) {
  const double drift = (1.900 - 2.000) / 2.000;
  ASSERT_NE(drift, -0.05);
  EXPECT_EQ(side_of_limit(drift, -0.05), Side::on);
}

TEST(Limit, IsNotMetByTheSmallestDifferenceAnyoneWritesDown) {
  EXPECT_EQ(side_of_limit(5.0001, 5.0), Side::above);
  EXPECT_EQ(side_of_limit(-5.0001, -5.0), Side::below);
  EXPECT_EQ(side_of_limit(5.000'001, 5.0), Side::above);
}

TEST(Limit, ReachesARelativeBillionthAndNoFurther) {
  EXPECT_EQ(side_of_limit(100 * (1 + 0.9e-9), 100), Side::on);
  EXPECT_EQ(side_of_limit(100 * (1 + 1.1e-9), 100), Side::above);
  EXPECT_EQ(side_of_limit(100 * (1 - 0.9e-9), 100), Side::on);
  EXPECT_EQ(side_of_limit(100 * (1 - 1.1e-9), 100), Side::below);
  EXPECT_EQ(side_of_limit(-100 * (1 + 1.1e-9), -100), Side::below);
}

TEST(Limit, AndFigureMayChangePlaces) {
  for (const double ratio : {1 - 1.1e-9, 1 - 1e-9, 1 - 0.9e-9, 1.0, 1 + 0.9e-9, 1 + 1e-9, 1 + 1.1e-9}) {
    const bool on = side_of_limit(5 * ratio, 5) == Side::on;
    EXPECT_EQ(side_of_limit(5, 5 * ratio) == Side::on, on) << ratio;
  }
}

TEST(Limit, OfZeroIsMetByWhatCancellationLeaves) {
  EXPECT_EQ(side_of_limit(0.1 + 0.2 - 0.3, 0), Side::on);
  EXPECT_EQ(side_of_limit(-1e-17, 0), Side::on);
  EXPECT_EQ(side_of_limit(-0.0, 0), Side::on);
  EXPECT_EQ(side_of_limit(1e-11, 0), Side::above);
  EXPECT_EQ(side_of_limit(-1e-11, 0), Side::below);
}

TEST(Limit, OtherThanZeroIsNotMetByZero) {
  EXPECT_EQ(side_of_limit(0, 1e-15), Side::below);
  EXPECT_EQ(side_of_limit(0, -1e-15), Side::above);
}

TEST(Limit, HasTheInfiniteBeyondItAlways) {
  EXPECT_EQ(side_of_limit(infinity, 5), Side::above);
  EXPECT_EQ(side_of_limit(-infinity, 0), Side::below);
  EXPECT_EQ(side_of_limit(5, infinity), Side::below);
  EXPECT_EQ(side_of_limit(infinity, infinity), Side::on);
}

// A billionth of the larger of the two: of the smaller these would lie apart.
TEST(Limit, ReachesABillionthOfTheLarger) {
  EXPECT_EQ(side_of_limit(1.1460095097088798, 1.1460095085628703), Side::on);
  EXPECT_EQ(side_of_limit(1.1460095085628703, 1.1460095097088798), Side::on);
}

TEST(Limit, IncludesTheEndOfItsReach) {
  EXPECT_EQ(side_of_limit(on_a_limit_of_zero, 0), Side::on);
  EXPECT_EQ(side_of_limit(-on_a_limit_of_zero, 0), Side::on);
}

}  // namespace
}  // namespace driftwarden::limit_test

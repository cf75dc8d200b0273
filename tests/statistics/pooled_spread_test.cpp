// SPDX-License-Identifier: MIT
#include "statistics/pooled_spread.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftwarden::pooled_spread_test {
namespace {

// input: spreads, where nothing else is said.

MeanAndSpread set_of(std::size_t n, double s) {
  MeanAndSpread set;
  set.n = n;
  set.s = s;
  return set;
}

TEST(PooledSpread, WeighsByDegreesOfFreedom) {
  const std::array<MeanAndSpread, 3> sets{set_of(5, 0.003), set_of(1, std::nan("")), set_of(3, 0.001)};
  const PooledSpread pooled = pooled_spread(sets);
  EXPECT_EQ(pooled.dof, 6);
  EXPECT_NEAR(pooled.s, std::sqrt((4 * 9e-6 + 2 * 1e-6) / 6), 1e-17);
}

TEST(PooledSpread, OfSingleReadingsIsNoFigure) {
  const std::array<MeanAndSpread, 1> sets{set_of(1, std::nan(""))};
  EXPECT_TRUE(std::isnan(pooled_spread(sets).s));
  EXPECT_EQ(pooled_spread({}).dof, 0);
}

TEST(PooledSpread, OfOneSetOfTwoIsItsOwn) {
  const std::array<MeanAndSpread, 1> sets{set_of(2, 0.003)};
  EXPECT_NEAR(pooled_spread(sets).s, 0.003, 1e-17);
}

}  // namespace
}  // namespace driftwarden::pooled_spread_test

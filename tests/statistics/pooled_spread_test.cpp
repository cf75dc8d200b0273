// SPDX-License-Identifier: MIT
#include "statistics/pooled_spread.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

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

TEST(Cochran, CriticalValuesAreThoseOfPrintedTables) {
  // printed: UK National Measurement System, chemical and biological metrology, page on Cochran's test
  // (nmschembio.org.uk), table for 5 %, three decimals, the last cut off or rounded.
  EXPECT_NEAR(cochran_critical(2, 3, 0.05), 0.975, 1e-3);
  EXPECT_NEAR(cochran_critical(3, 2, 0.05), 0.967, 1e-3);
  EXPECT_NEAR(cochran_critical(8, 3, 0.05), 0.516, 1e-3);
  EXPECT_NEAR(cochran_critical(10, 5, 0.05), 0.331, 1e-3);
}

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
TEST(Cochran, CriticalValuesHaveEnoughDigits) {
  EXPECT_NEAR(cochran_critical(8, 3, 0.05), 0.515687457, 1e-9);
  EXPECT_NEAR(cochran_critical(8, 3, 0.01), 0.6152, 5e-5);
  EXPECT_NEAR(cochran_critical(20, 5, 0.01), 0.2288, 5e-5);
}

TEST(Cochran, UsesVariancesNotStandardDeviations) {
  const std::array<MeanAndSpread, 3> sets{set_of(3, 1), set_of(3, 4), set_of(3, 2)};
  const auto check = cochran(sets, 0.05);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->index, 1U);
  EXPECT_NEAR(check->statistic, 16.0 / 21, 1e-15);
  EXPECT_NEAR(check->critical, 0.8709,
              5e-5);  // own input: 3 sets of 3; computed with SciPy 1.10 by tests/support/computed_statistics.py
  EXPECT_FALSE(check->significant);
}

TEST(Cochran, FlagsASetThatSpreadsFarMoreThanTheOthers) {
  std::vector<MeanAndSpread> sets(8, set_of(3, 1));
  sets[5] = set_of(3, 4);  // 16/23 = 0.696 > 0.516
  EXPECT_EQ(cochran(sets, 0.05)->index, 5U);
  EXPECT_TRUE(cochran(sets, 0.05)->significant);
}

TEST(Cochran, NeedsSetsOfOneSizeWithSpread) {
  EXPECT_FALSE(cochran(std::array<MeanAndSpread, 1>{set_of(3, 1)}, 0.05));
  EXPECT_FALSE(cochran(std::array<MeanAndSpread, 2>{set_of(3, 1), set_of(4, 1)}, 0.05));
  EXPECT_FALSE(cochran(std::array<MeanAndSpread, 2>{set_of(3, 0), set_of(3, 0)}, 0.05));
  EXPECT_FALSE(cochran(std::array<MeanAndSpread, 2>{set_of(1, std::nan("")), set_of(1, std::nan(""))}, 0.05));
  EXPECT_TRUE(std::isnan(cochran_critical(1, 3, 0.05)));
}

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
TEST(SpreadAgainstHistory, FindsReadingsThatAreTooGoodToBeTrue) {
  std::vector<MeanAndSpread> sets;
  for (const double s : {0.0012, 0.0009, 0.0015, 0.0008, 0.0011, 0.0010}) sets.push_back(set_of(5, s));
  const SpreadAgainstHistory found = spread_against_history(sets, 0.0029);
  EXPECT_EQ(found.dof, 24);
  EXPECT_NEAR(found.q, 3.49583829, 1e-8);
  EXPECT_NEAR(found.lower_p / 3.41036704e-7, 1, 1e-7);
  EXPECT_NEAR(found.upper_p, 1 - 3.41036704e-7, 1e-12);
}

TEST(SpreadAgainstHistory, NeedsAHistory) {
  const std::array<MeanAndSpread, 1> sets{set_of(3, 1)};
  EXPECT_TRUE(std::isnan(spread_against_history(sets, 0).q));
  EXPECT_TRUE(std::isnan(spread_against_history({}, 1).q));
}

}  // namespace
}  // namespace driftwarden::pooled_spread_test

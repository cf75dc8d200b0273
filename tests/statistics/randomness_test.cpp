// SPDX-License-Identifier: MIT
#include "statistics/randomness.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftwarden::randomness_test {
namespace {

TEST(RunsTest, OfTwentyValues) {
  // own input: twenty values; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  const std::array<double, 20> values{1, 1, 0, 1, 0, 0, 1, 1, 1, 0, 0, 0, 0, 1, 1, 0, 1, 0, 1, 1};
  const RunsTest test = runs_test(values, 0.5);
  EXPECT_EQ(test.runs, 11U);
  EXPECT_EQ(test.above, 11U);
  EXPECT_EQ(test.below, 9U);
  EXPECT_NEAR(test.z, 0.0464370048, 1e-9);
  EXPECT_NEAR(test.p, 0.962961943, 1e-8);
}

TEST(RunsTest, FindsALevelThatMoved) {
  std::array<double, 24> values{};
  for (std::size_t i = 12; i < 24; ++i) values[i] = 1;
  EXPECT_EQ(runs_test(values, 0.5).runs, 2U);
  EXPECT_LT(runs_test(values, 0.5).z, -4);
}

TEST(RunsTest, PassesOverValuesOnTheCutAndMissingOnes) {
  const std::array<double, 7> values{1, 0.5, 1, std::nan(""), 0, 0.5, 0};
  const RunsTest test = runs_test(values, 0.5);
  EXPECT_EQ(test.runs, 2U);
  EXPECT_EQ(test.above + test.below, 4U);
}

TEST(RunsTest, OnOneSideIsNoFigure) {
  EXPECT_TRUE(std::isnan(runs_test(std::array<double, 3>{1, 2, 3}, 0).p));
  EXPECT_TRUE(std::isnan(runs_test({}, 0).p));
  EXPECT_TRUE(std::isnan(runs_test(std::array<double, 2>{-1, 1}, 0).p));  // two runs are the only possibility
}

TEST(VonNeumannRatio, OfTheHandbooksFlowRates) {
  // printed input: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2; ratio computed with NumPy 1.24 by
  // tests/support/computed_statistics.py.
  const std::array<double, 10> flow{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
  EXPECT_NEAR(von_neumann_ratio(flow), 1.0945768084, 1e-10);
}

TEST(VonNeumannRatio, IsNoFigureWithoutSpread) {
  EXPECT_TRUE(std::isnan(von_neumann_ratio(std::array<double, 2>{1, 1})));
  EXPECT_TRUE(std::isnan(von_neumann_ratio({})));
}

}  // namespace
}  // namespace driftwarden::randomness_test

// SPDX-License-Identifier: MIT
#include "plot/panel.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace driftwarden::panel_test {
namespace {

TEST(Range, HoldsAllFiguresWithRoom) {
  const Panel::Range range = range_around({1, 3, std::numeric_limits<double>::quiet_NaN()});
  EXPECT_NEAR(range.low, 0.86, 1e-12);
  EXPECT_NEAR(range.high, 3.14, 1e-12);
}

TEST(Range, IsNeverOfNoWidth) {
  for (const std::vector<double>& values : {std::vector<double>{}, {2.0}, {0.0, 0.0}, {-4.0}}) {
    const Panel::Range range = range_around(values);
    EXPECT_LT(range.low, range.high);
  }
}

TEST(TicStep, IsRoundAndLetsNoMoreFigures) {
  EXPECT_DOUBLE_EQ(tic_step(10, 5), 2);
  EXPECT_DOUBLE_EQ(tic_step(10.5, 5), 5);
  EXPECT_DOUBLE_EQ(tic_step(0.4, 8), 0.05);
  EXPECT_DOUBLE_EQ(tic_step(9, 1), 10);
}

}  // namespace
}  // namespace driftwarden::panel_test

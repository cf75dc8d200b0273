// SPDX-License-Identifier: MIT
#include "statistics/calibration_interval.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace driftwarden::calibration_interval_test {
namespace {

constexpr StaircaseDesign months_3_to_24{0.8, 1.25, 0.6, 3, 24};

TEST(Staircase, OfTenCalibrations) {
  // own input: errors in percent of a permissible 1 %, intervals in months; computed with SciPy 1.10 by
  // tests/support/computed_statistics.py.
  const std::array<std::pair<double, double>, 10> calibrations{{{0.3, 15},
                                                                {0.7, 18.75},
                                                                {0.85, 18.75},
                                                                {1.2, 11.25},
                                                                {0.4, 14.0625},
                                                                {0.5, 17.578125},
                                                                {-0.2, 21.97265625},
                                                                {-0.95, 21.97265625},
                                                                {-1.05, 13.18359375},
                                                                {0.1, 16.4794921875}}};
  double interval = 12;
  for (const auto& [error, next] : calibrations) {
    interval = staircase(interval, error, 1.0, months_3_to_24).interval;
    EXPECT_NEAR(interval, next, 1e-4) << error;
  }
  EXPECT_NEAR(interval, 16.4794921875, 1e-12);
}

// input: errors just inside and just beyond a boundary.
TEST(Staircase, OnABoundaryTakesTheMilderAnswer) {
  const auto step = [](double error) { return staircase(12, error, 1.0, months_3_to_24).step; };
  EXPECT_EQ(step(0.799), IntervalStep::extend);
  EXPECT_EQ(step(0.8), IntervalStep::extend);
  EXPECT_EQ(step(-0.8), IntervalStep::extend);
  EXPECT_EQ(step(0.801), IntervalStep::keep);
  EXPECT_EQ(step(1.0), IntervalStep::keep);
  EXPECT_EQ(step(1.001), IntervalStep::reduce);
  // 0.3 - 0.2 is not 0.1 in doubles, but on the boundary all the same.
  EXPECT_EQ(staircase(12, 0.3 - 0.2, 0.1, months_3_to_24).step, IntervalStep::keep);
  EXPECT_EQ(staircase(12, 0.1 + 0.2, 0.3, months_3_to_24).step, IntervalStep::keep);
}

TEST(Staircase, StaysBetweenShortestAndLongest) {
  EXPECT_EQ(staircase(23, 0.1, 1, months_3_to_24).interval, 24);
  EXPECT_EQ(staircase(4, 2.0, 1, months_3_to_24).interval, 3);
  EXPECT_EQ(staircase(100, 0, 1, StaircaseDesign{}).interval, 125);
}

TEST(Staircase, NeedsAnErrorAndALimit) {
  EXPECT_TRUE(std::isnan(staircase(12, std::nan(""), 1, months_3_to_24).interval));
  EXPECT_TRUE(std::isnan(staircase(12, 0.1, 0, months_3_to_24).interval));
}

TEST(InUse, TheRestLastsAsLongAsThePaceSays) {
  // own input: 90 h at 2.0667 h a day; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(days_until_used_up(400, 310, 150), 43.5483870968, 1e-9);
  EXPECT_LT(days_until_used_up(400, 450, 150), 0);
  EXPECT_EQ(days_until_used_up(400, 0, 150), std::numeric_limits<double>::infinity());
}

// derived: 0.021/0.025, 0.030/0.025 and its mirror image, as √(0.020² + 0.015²) is 0.025.
TEST(En, OfACheckStandard) {
  EXPECT_NEAR(e_n(2.031, 0.020, 2.010, 0.015), 0.84, 1e-12);
  EXPECT_NEAR(e_n(2.040, 0.020, 2.010, 0.015), 1.20, 1e-12);
  EXPECT_NEAR(e_n(1.980, 0.020, 2.010, 0.015), -1.20, 1e-12);
}

// derived: one hour of 400 in 150 days leaves 399 times as long.
TEST(InUse, OfOneHourSoFarTellsAPace) { EXPECT_NEAR(days_until_used_up(400, 1, 150), 399 * 150, 1e-9); }

}  // namespace
}  // namespace driftwarden::calibration_interval_test

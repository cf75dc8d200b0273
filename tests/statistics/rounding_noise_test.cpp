// SPDX-License-Identifier: MIT
#include "statistics/rounding_noise.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

namespace driftwarden::rounding_noise_test {
namespace {

// input: a figure and the double after it.

TEST(RoundingNoise, GrowsWithTheLargestMagnitudeFromOneOn) {
  EXPECT_DOUBLE_EQ(rounding_noise(std::array<double, 2>{-200, 3}), 2e-10);
  EXPECT_DOUBLE_EQ(rounding_noise(std::array<double, 2>{1e-14, std::nan("")}), 1e-12);
  EXPECT_DOUBLE_EQ(rounding_noise({}), 1e-12);
}

TEST(WithoutRoundingNoise, MakesEqualWhatDiffersByLess) {
  const double next = std::nextafter(2.010, 3);
  EXPECT_EQ(without_rounding_noise(std::array<double, 4>{next, 2.011, 2.010, next}),
            (std::vector<double>{2.010, 2.011, 2.010, 2.010}));
  EXPECT_EQ(without_rounding_noise(std::array<double, 3>{2e-14, 0, -1e-14}), (std::vector<double>(3, -1e-14)));
}

TEST(WithoutRoundingNoise, LeavesEveryOtherValueAsItIs) {
  const std::vector<double> values{2.010, 2.0100000001, -1, 0, 1e-10, 15};
  EXPECT_EQ(without_rounding_noise(values), values);
}

TEST(WithoutRoundingNoise, LeavesMissingValuesMissing) {
  const std::vector<double> kept = without_rounding_noise(std::array<double, 3>{std::nan(""), 1, 1 + 1e-15});
  EXPECT_TRUE(std::isnan(kept[0]));
  EXPECT_EQ(kept[1], kept[2]);
}

TEST(WithoutRoundingNoise, MakesEqualAcrossAMissingValue) {
  const std::vector<double> kept = without_rounding_noise(std::array<double, 3>{2, std::nan(""), 2 + 1e-15});
  EXPECT_EQ(kept[0], kept[2]);
}

}  // namespace
}  // namespace driftwarden::rounding_noise_test

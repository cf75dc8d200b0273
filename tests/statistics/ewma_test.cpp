// SPDX-License-Identifier: MIT
#include "statistics/ewma.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "statistics/data_file.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::ewma_test {
namespace {

TEST(Ewma, OfTheHandbooksTwentyValues) {
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4, averages printed with two decimals,
  // limits 52.5884 and 47.4115 (its factor is rounded to 0.4201), no signal.
  const auto values = test::column_of("nist_6_3_2_4_ewma.csv", 0);
  const auto printed = test::column_of("nist_6_3_2_4_ewma.csv", 1);
  const auto points = ewma(values, {50, 2.0539, 0.3, 3, false});
  ASSERT_EQ(points.size(), 20U);
  for (std::size_t i = 0; i < 20; ++i) {
    EXPECT_NEAR(points[i].average, printed[i], 0.0051) << i;
    EXPECT_NEAR(points[i].upper, 52.5884, 5e-5);
    EXPECT_NEAR(points[i].lower, 47.4115, 1e-4);
    EXPECT_FALSE(points[i].is_signal);
  }
  // printed input: the same in exact fractions, computed with Python 3.11 by tests/support/computed_statistics.py.
  EXPECT_NEAR(points[19].average, 51.9882432586, 1e-9);
  EXPECT_NEAR(points[19].upper, 52.58843174, 1e-8);
}

TEST(Ewma, LimitsWidenFromTheFirstValue) {
  // printed input: 6.3.2.4 with limits that widen, computed with Python 3.11 by tests/support/computed_statistics.py.
  const auto points = ewma(test::column_of("nist_6_3_2_4_ewma.csv", 0), {50, 2.0539, 0.3, 3, true});
  EXPECT_NEAR(points[0].upper, 51.848510, 1e-6);
  EXPECT_NEAR(points[1].upper, 52.256394, 1e-6);
  EXPECT_NEAR(points[19].upper, 52.588431, 1e-6);
  EXPECT_NEAR(points[0].lower, 48.151490, 1e-6);
}

TEST(Ewma, WithAllWeightOnTheNewestIsAChartOfValues) {
  const auto points = ewma(std::array<double, 3>{1, 3.0, -3.01}, {0, 1, 1, 3, true});
  EXPECT_EQ(points[1].average, 3);
  EXPECT_EQ(points[1].upper, 3);
  EXPECT_FALSE(points[1].is_signal);  // on the limit is not outside
  EXPECT_TRUE(points[2].is_signal);
}

TEST(Ewma, AMissingValueChangesNothing) {
  const auto points = ewma(std::array<double, 3>{1, std::nan(""), 2}, {0, 1, 0.3, 3, true});
  EXPECT_EQ(points[1].average, points[0].average);
  EXPECT_EQ(points[1].upper, points[0].upper);
  EXPECT_FALSE(points[1].is_signal);
  const auto without = ewma(std::array<double, 2>{1, 2}, {0, 1, 0.3, 3, true});
  EXPECT_EQ(points[2].average, without[1].average);
  EXPECT_EQ(points[2].upper, without[1].upper);
}

TEST(Ewma, FindsAShiftOfOneSigmaAsSoonAsTheIntegralEquationSays) {
  // own input: λ 0.2, L 2.962, fixed limits; mean run length 10.5417 by the integral equation, computed with NumPy 1.24
  // by tests/support/computed_statistics.py. 20 000 runs, standard error about 0.05.
  test::RandomNumbers random(20);
  double total = 0;
  constexpr int runs = 20000;
  for (int run = 0; run < runs; ++run) {
    std::vector<double> values(200);
    for (double& value : values) value = 1 + random.normal();
    const auto points = ewma(values, {0, 1, 0.2, 2.962, false});
    std::size_t first = 0;
    while (first < points.size() && !points[first].is_signal) ++first;
    total += static_cast<double>(first + 1);
  }
  EXPECT_NEAR(total / runs, 10.5417, 0.2);
}

TEST(Ewma, OfNothingIsNothing) { EXPECT_TRUE(ewma({}, {0, 1}).empty()); }

// input: beyond the limit, then missing.
TEST(Ewma, AMissingValueIsNoSignalThoughTheAverageIsOutside) {
  const auto points = ewma(std::array<double, 2>{10, std::nan("")}, {0, 1, 1, 3, true});
  EXPECT_TRUE(points[0].is_signal);
  EXPECT_EQ(points[1].average, 10);
  EXPECT_FALSE(points[1].is_signal);
}

}  // namespace
}  // namespace driftwarden::ewma_test

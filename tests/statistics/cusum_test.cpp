// SPDX-License-Identifier: MIT
#include "statistics/cusum.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "statistics/data_file.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::cusum_test {
namespace {

TEST(Cusum, OfTheHandbooksTwentyMeans) {
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, sums printed with two decimals, halves rounded
  // either way.
  const std::string file = "nist_6_3_2_3_cusum.csv";
  const auto printed_high = test::column_of(file, 1);
  const auto printed_low = test::column_of(file, 2);
  const auto printed_sum = test::column_of(file, 3);
  const auto points = cusum(test::column_of(file, 0), {325, 0.3175, 4.1959});
  ASSERT_EQ(points.size(), 20U);
  for (std::size_t i = 0; i < 20; ++i) {
    EXPECT_NEAR(points[i].high, printed_high[i], 0.00501) << i;
    EXPECT_NEAR(points[i].low, printed_low[i], 0.00501) << i;
    EXPECT_NEAR(points[i].sum, printed_sum[i], 0.00501) << i;
    EXPECT_EQ(points[i].is_high_signal, i >= 13) << i;  // from the 14th mean on
    EXPECT_FALSE(points[i].is_low_signal);
  }
  // printed input: the same in exact fractions, computed with Python 3.11 by tests/support/computed_statistics.py.
  EXPECT_NEAR(points[19].high, 19.0350, 1e-9);
  EXPECT_NEAR(points[19].sum, 19.0750, 1e-9);
  EXPECT_NEAR(points[7].low, 0.7150, 1e-9);
}

TEST(Cusum, IsTheSameDownwards) {
  const auto points = cusum(std::array<double, 3>{-2, -2, -2}, {0, 0.5, 4});
  EXPECT_EQ(points[2].low, 4.5);
  EXPECT_TRUE(points[2].is_low_signal);
  EXPECT_FALSE(points[1].is_low_signal);
  EXPECT_EQ(points[2].high, 0);
}

TEST(Cusum, OnTheDecisionIntervalIsNoSignal) {
  EXPECT_FALSE(cusum(std::array<double, 1>{4.5}, {0, 0.5, 4})[0].is_high_signal);
}

// printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, k 0.3175 and h 4.1959.
TEST(Cusum, DesignInSigmasIsScaled) {
  const CusumDesign design = cusum_design_in_sigmas(325, 0.635, 0.5, 6.608);
  EXPECT_NEAR(design.slack, 0.3175, 1e-12);             // the handbook's k
  EXPECT_NEAR(design.decision_interval, 4.1959, 2e-4);  // and h
}

TEST(Cusum, AMissingValueChangesNothing) {
  const auto points = cusum(std::array<double, 3>{9, std::nan(""), 1}, {0, 0.5, 4});
  EXPECT_EQ(points[1].high, points[0].high);
  EXPECT_FALSE(points[1].is_high_signal);
  EXPECT_EQ(points[2].high, 9);
}

TEST(Cusum, FindsAShiftOfOneSigmaAsSoonAsTheIntegralEquationSays) {
  // own input: k 0.5, mean run length 8.3832 for h 4 and 10.3760 for h 5 by the integral equation, computed with
  // NumPy 1.24 by tests/support/computed_statistics.py. 20 000 runs, standard error about 0.04.
  for (const auto& [h, expected] : {std::pair{4.0, 8.3832}, std::pair{5.0, 10.3760}}) {
    test::RandomNumbers random(40);
    double total = 0;
    constexpr int runs = 20000;
    for (int run = 0; run < runs; ++run) {
      std::vector<double> values(200);
      for (double& value : values) value = 1 + random.normal();
      const auto points = cusum(values, cusum_design_in_sigmas(0, 1, 0.5, h));
      std::size_t first = 0;
      while (first < points.size() && !points[first].is_high_signal && !points[first].is_low_signal) ++first;
      total += static_cast<double>(first + 1);
    }
    EXPECT_NEAR(total / runs, expected, 0.15);
  }
}

TEST(Cusum, OnTheDecisionIntervalOrWithoutAValueIsNoSignalDownwardsEither) {
  const auto points = cusum(std::array<double, 3>{-4.5, -1, std::nan("")}, {0, 0.5, 4});
  EXPECT_EQ(points[0].low, 4);
  EXPECT_FALSE(points[0].is_low_signal);
  EXPECT_TRUE(points[1].is_low_signal);
  EXPECT_FALSE(points[2].is_low_signal);
}

}  // namespace
}  // namespace driftwarden::cusum_test

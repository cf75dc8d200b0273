// SPDX-License-Identifier: MIT
#include "statistics/median.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftwarden::median_test {
namespace {

TEST(Median, IsTheMiddleValueOrTheMeanOfTheTwoInTheMiddle) {
  EXPECT_EQ(median(std::array<double, 3>{5, 1, 3}), 3);
  EXPECT_EQ(median(std::array<double, 4>{1, 100, 2, 3}), 2.5);
  EXPECT_EQ(median(std::array<double, 2>{5, 1}), 3);
  EXPECT_EQ(median(std::array<double, 1>{7}), 7);
}

TEST(Median, OfTheHandbooksUraniumReadings) {
  // Data: NIST/SEMATECH e-Handbook 1.3.5.17.1. (200.82 + 201.92)/2.
  EXPECT_NEAR(median(std::array<double, 8>{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57}), 201.37,
              1e-12);
}

TEST(Median, OfNothingOrOfAMissingValueIsNoFigure) {
  EXPECT_TRUE(std::isnan(median({})));
  EXPECT_TRUE(std::isnan(median(std::array<double, 3>{1, std::nan(""), 3})));
}

TEST(Quantile, OfTheHandbooksWafers) {
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.2, data and 90th percentile 95.1981.
  const std::array<double, 12> wafers{95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610,
                                      95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682};
  EXPECT_NEAR(quantile(wafers, 0.9, QuantileRank::n_plus_one), 95.1981, 5e-5);
  // printed input: the same data; computed with NumPy 1.24 by tests/support/computed_statistics.py.
  EXPECT_NEAR(quantile(wafers, 0.9, QuantileRank::n_minus_one), 95.1957, 5e-5);
  EXPECT_NEAR(quantile(wafers, 0.9, QuantileRank::median_unbiased), 95.1972, 5e-5);
}

TEST(Quantile, StaysWithinTheValues) {
  const std::array<double, 3> values{3, 1, 2};
  EXPECT_EQ(quantile(values, 0, QuantileRank::n_plus_one), 1);
  EXPECT_EQ(quantile(values, 1, QuantileRank::n_plus_one), 3);
  EXPECT_EQ(quantile(values, 0.5, QuantileRank::n_minus_one), 2);
  EXPECT_EQ(quantile(std::array<double, 1>{4}, 0.3, QuantileRank::median_unbiased), 4);
}

TEST(Quantile, RefusesTheImpossible) {
  EXPECT_TRUE(std::isnan(quantile({}, 0.5, QuantileRank::n_plus_one)));
  EXPECT_TRUE(std::isnan(quantile(std::array<double, 2>{1, 2}, 1.1, QuantileRank::n_plus_one)));
  EXPECT_TRUE(std::isnan(quantile(std::array<double, 2>{1, std::nan("")}, 0.5, QuantileRank::n_plus_one)));
}

TEST(Median, OfAMissingValueIsNoFigureWhereverItStands) {
  for (std::size_t i = 0; i < 5; ++i) {
    std::array<double, 5> values{1, 2, 3, 4, 5};
    values[i] = std::nan("");
    EXPECT_TRUE(std::isnan(median(values))) << i;
    EXPECT_TRUE(std::isnan(quantile(values, 0.5, QuantileRank::n_plus_one))) << i;
  }
}

TEST(Quantile, RefusesANegativeProbability) {
  EXPECT_TRUE(std::isnan(quantile(std::array<double, 2>{1, 2}, -0.1, QuantileRank::n_plus_one)));
}

}  // namespace
}  // namespace driftwarden::median_test

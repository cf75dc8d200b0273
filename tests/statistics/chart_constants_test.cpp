// SPDX-License-Identifier: MIT
#include "statistics/chart_constants.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "statistics/quadrature.hpp"

namespace driftwarden::chart_constants_test {
namespace {

// P(range of n > w)
double chance_of_a_larger_range(std::size_t n, double w) {
  const auto below = [&](double x) {
    return test::normal_density(x) *
           std::pow(test::normal_chance_below(x + w) - test::normal_chance_below(x), static_cast<double>(n - 1));
  };
  return 1 - static_cast<double>(n) * test::integral_of_a_hill(below, -16, 9, 250);
}

TEST(ChartConstants, AgreeWithTheDistributionOfTheRange) {
  // Tolerance: what Simpson's rule in steps of 0.07 reaches.
  for (std::size_t n = 2; n <= largest_chart_group; ++n) {
    const double mean = test::integral([&](double w) { return chance_of_a_larger_range(n, w); }, 0, 14, 200);
    const double square = test::integral([&](double w) { return 2 * w * chance_of_a_larger_range(n, w); }, 0, 14, 200);
    EXPECT_NEAR(chart_constants(n)->d2, mean, 2e-7) << n;
    EXPECT_NEAR(chart_constants(n)->d3, std::sqrt(square - mean * mean), 1e-6) << n;
  }
}

TEST(ChartConstants, OfTwoAndThreeHaveClosedForms) {
  const double pi = std::acos(-1.0);
  EXPECT_NEAR(chart_constants(2)->d2, 2 / std::sqrt(pi), 1e-12);
  EXPECT_NEAR(chart_constants(2)->d3, std::sqrt(2 - 4 / pi), 1e-12);
  EXPECT_NEAR(chart_constants(3)->d2, 3 / std::sqrt(pi), 1e-12);
  EXPECT_NEAR(chart_constants(2)->c4, std::sqrt(2 / pi), 1e-15);
  EXPECT_NEAR(c4(3), std::sqrt(pi) / 2, 1e-15);
  EXPECT_NEAR(c4(2000), 1 - 1 / (4.0 * 2000), 1e-7);  // 1 - 1/(4n) - … for many values
}

TEST(ChartConstants, AreThoseOfPrintedTables) {
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.1 and 6.3.2.2, print three decimals (d2 1.128,
  // D4 3.267, D4(5) 2.115).
  EXPECT_NEAR(chart_constants(2)->d2, 1.128, 5e-4);
  EXPECT_NEAR(chart_constants(2)->big_d4, 3.267, 5e-4);
  EXPECT_NEAR(chart_constants(5)->big_d4, 2.115, 6e-4);  // 2.1145 exactly, rounded up there
  // own input: four decimals, computed with SciPy 1.10 by tests/support/computed_statistics.py.
  struct Row {
    std::size_t n;
    double c4, a2, a3, b3, b4, d3, d4;
  };
  const std::array<Row, 4> rows{{{3, 0.8862, 1.0233, 1.9544, 0, 2.5682, 0, 2.5746},
                                 {5, 0.9400, 0.5768, 1.4273, 0, 2.0890, 0, 2.1145},
                                 {7, 0.9594, 0.4193, 1.1819, 0.1177, 1.8823, 0.0757, 1.9243},
                                 {15, 0.9823, 0.2231, 0.7885, 0.4282, 1.5718, 0.3466, 1.6534}}};
  for (const Row& row : rows) {
    const ChartConstants found = *chart_constants(row.n);
    EXPECT_NEAR(found.c4, row.c4, 5.1e-5);
    EXPECT_NEAR(found.a2, row.a2, 5.1e-5);
    EXPECT_NEAR(found.a3, row.a3, 5.1e-5);
    EXPECT_NEAR(found.b3, row.b3, 5.1e-5);
    EXPECT_NEAR(found.b4, row.b4, 5.1e-5);
    EXPECT_NEAR(found.big_d3, row.d3, 5.1e-5);
    EXPECT_NEAR(found.big_d4, row.d4, 5.1e-5);
  }
}

TEST(ChartConstants, AreGivenFor2To25) {
  EXPECT_FALSE(chart_constants(0));
  EXPECT_FALSE(chart_constants(1));
  EXPECT_TRUE(chart_constants(25));
  EXPECT_FALSE(chart_constants(26));
  EXPECT_TRUE(std::isnan(c4(1)));
}

}  // namespace
}  // namespace driftwarden::chart_constants_test

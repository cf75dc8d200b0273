// SPDX-License-Identifier: MIT
#include "statistics/dixon.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <span>
#include <vector>

#include "statistics/quadrature.hpp"

namespace driftwarden::dixon_test {
namespace {

double choose_two(double n) { return n * (n - 1) / 2; }

// Exact chance that the ratio exceeds r at one named end. x is the smallest value in the range used, x + w the largest;
// `left_out` values lie below x; of those between, at most `neighbours - 1` lie in the gap.
double chance_of_exceeding(int n, int neighbours, int left_out, double r) {
  const int between = n - 2 - left_out;
  const double arrangements = n * (n - 1.0) * (left_out == 0 ? 1 : left_out == 1 ? n - 2.0 : choose_two(n - 2.0));
  const auto at_range = [&](double w) {
    const auto at_place = [&](double x) {
      const double below = test::normal_chance_below(x);
      const double inside = test::normal_chance_below(x + w * (1 - r)) - below;
      const double in_gap = test::normal_chance_below(x + w) - below - inside;
      double ways = std::pow(inside, between);
      if (neighbours == 2) ways += between * std::pow(inside, between - 1) * in_gap;
      return test::normal_density(x) * test::normal_density(x + w) * std::pow(below, left_out) * ways;
    };
    return test::integral_of_a_hill(at_place, -14, 8, 140);
  };
  return arrangements * test::integral(at_range, 0, 14, 140);
}

double chance_of_exceeding(std::size_t n, double r) {
  const int count = static_cast<int>(n);
  if (n <= 7) return chance_of_exceeding(count, 1, 0, r);
  if (n <= 10) return chance_of_exceeding(count, 1, 1, r);
  if (n <= 13) return chance_of_exceeding(count, 2, 1, r);
  return chance_of_exceeding(count, 2, 2, r);
}

double dixon_ratio(std::span<const double> values, Suspect suspect) { return dixon(values, suspect, 0.05)->statistic; }

TEST(Dixon, EveryCriticalRatioIsExceededWithItsProbability) {
  // derived: each level of the table, by the quadrature above. Tolerance: half a unit of the table's sixth decimal
  // times a slope of about 1, and 3e-7 of the quadrature.
  for (std::size_t n = 3; n <= 30; ++n) {
    for (const double level : {0.10, 0.05, 0.025, 0.01, 0.005}) {
      EXPECT_NEAR(chance_of_exceeding(n, dixon_critical(n, level)), level, 1.5e-6) << n << " values at " << level;
    }
  }
}

TEST(Dixon, OfThreeValuesEitherGapIsAsLikelyTheLarger) {
  // r10 > 1/2 says that the gap beside the named end is the larger of two. Checks the quadrature itself.
  EXPECT_NEAR(chance_of_exceeding(3, 0.5), 0.5, 5e-7);
}

TEST(Dixon, CriticalRatiosAreCloseToThoseFirstPrinted) {
  // second hand: Dixon, Annals of Mathematical Statistics 22 (1951), after Dean and Dixon, Analytical Chemistry 23
  // (1951), as a data report of the State of Colorado's mining division reprints the table; three decimals, found by
  // hand, known to differ by up to 0.006.
  EXPECT_NEAR(dixon_critical(5, 0.05), 0.642, 0.006);
  EXPECT_NEAR(dixon_critical(8, 0.05), 0.554, 0.006);
  EXPECT_NEAR(dixon_critical(12, 0.01), 0.642, 0.006);
  EXPECT_NEAR(dixon_critical(25, 0.05), 0.406, 0.006);
}

TEST(Dixon, TheRatioOfTenReadings) {
  // second hand: the ten readings that articles on Dixon's Q test use as their example (the encyclopedia Wikipedia has
  // them under "Dixon's Q test"), there tested with r10: an outlier at 90 %, not at 95 %. The ratio proper to ten
  // readings is r11; chances and critical ratio are computed with SciPy 1.10 by tests/support/computed_statistics.py.
  const std::array<double, 10> readings{0.189, 0.167, 0.187, 0.183, 0.186, 0.182, 0.181, 0.184, 0.181, 0.177};
  EXPECT_NEAR(dixon_ratio(readings, Suspect::smallest), 0.5, 1e-12);  // (0.177 - 0.167)/(0.187 - 0.167)
  EXPECT_NEAR(chance_of_exceeding(10, 0.5), 0.0386846622, 1e-8);
  EXPECT_NEAR(chance_of_exceeding(10, 1, 0, 0.01 / 0.022), 0.0290730796,
              1e-8);  // own input: for r10; SciPy 1.10, as above
  const auto at_5 = dixon(readings, Suspect::smallest, 0.05);
  ASSERT_TRUE(at_5);
  EXPECT_EQ(at_5->index, 1U);
  EXPECT_TRUE(at_5->significant);
  const auto two_sided = dixon(readings, Suspect::either_end, 0.05);
  ASSERT_TRUE(two_sided);
  EXPECT_EQ(two_sided->index, 1U);
  EXPECT_NEAR(two_sided->critical, 0.534578, 1e-12);
  EXPECT_FALSE(two_sided->significant);
}

TEST(Dixon, UsesTheRatioThatBelongsToTheNumberOfValues) {
  // 1, 2, …, n with the largest moved out by 10: gaps and ranges by hand.
  const auto ratio = [](int n) {
    std::vector<double> values;
    for (int i = 1; i < n; ++i) values.push_back(i);
    values.push_back(n + 10);
    return dixon_ratio(values, Suspect::largest);
  };
  EXPECT_NEAR(ratio(7), 11.0 / 16, 1e-15);   // r10
  EXPECT_NEAR(ratio(8), 11.0 / 16, 1e-15);   // r11
  EXPECT_NEAR(ratio(11), 12.0 / 19, 1e-15);  // r21
  EXPECT_NEAR(ratio(14), 12.0 / 21, 1e-15);  // r22
}

TEST(Dixon, IsTheSameForMirroredValues) {
  const std::array<double, 5> values{2.01, 2.02, 2.00, 2.03, 2.20};
  const std::array<double, 5> mirrored{-2.01, -2.02, -2.00, -2.03, -2.20};
  EXPECT_DOUBLE_EQ(dixon_ratio(values, Suspect::largest), dixon_ratio(mirrored, Suspect::smallest));
  EXPECT_EQ(dixon(mirrored, Suspect::either_end, 0.05)->index, 4U);
}

TEST(Dixon, SaysNothingOutsideItsTable) {
  EXPECT_FALSE(dixon(std::array<double, 2>{1, 2}, Suspect::largest, 0.05));
  EXPECT_FALSE(dixon(std::vector<double>(31, 1.0), Suspect::largest, 0.05));
  EXPECT_FALSE(dixon(std::array<double, 3>{1, 2, 3}, Suspect::largest, 0.04));
  EXPECT_FALSE(dixon(std::array<double, 3>{2, 2, 2}, Suspect::largest, 0.05));
  EXPECT_FALSE(dixon(std::array<double, 3>{1, std::nan(""), 3}, Suspect::largest, 0.05));
  EXPECT_TRUE(std::isnan(dixon_critical(31, 0.05)));
}

TEST(Dixon, OfAllButTheOtherEndEqualIsZero) {
  std::vector<double> values(8, 2.0);
  values[3] = 1.0;
  EXPECT_EQ(dixon_ratio(values, Suspect::largest), 0);
  EXPECT_EQ(dixon_ratio(values, Suspect::smallest), 1);
}

TEST(Dixon, OfTheLargestNumberOfValuesForARatioIsThatRatio) {
  // 1, 2, …, n - 1 and n + 10, by hand.
  const auto ratio = [](int n) {
    std::vector<double> values{n + 10.0};
    for (int i = 1; i < n; ++i) values.push_back(i);
    return dixon_ratio(values, Suspect::largest);
  };
  EXPECT_NEAR(ratio(3), 11.0 / 12, 1e-15);
  EXPECT_NEAR(ratio(10), 11.0 / 18, 1e-15);  // r11
  EXPECT_NEAR(ratio(13), 12.0 / 21, 1e-15);  // r21
  EXPECT_NEAR(ratio(30), 12.0 / 37, 1e-15);  // r22
}

TEST(Dixon, AtEitherEndSuspectsTheOneWithTheLargerRatioElseTheLargest) {
  EXPECT_EQ(dixon(std::array<double, 5>{2.01, 2.02, 2.00, 2.03, 2.20}, Suspect::either_end, 0.05)->index, 4U);
  EXPECT_EQ(dixon(std::array<double, 3>{1, 2, 3}, Suspect::either_end, 0.05)->index, 2U);
}

}  // namespace
}  // namespace driftwarden::dixon_test

// SPDX-License-Identifier: MIT
#include "statistics/outliers.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

namespace driftwarden::outliers_test {
namespace {

// Data: NIST/SEMATECH e-Handbook 1.3.5.17.1.
constexpr std::array<double, 8> uranium{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57};

TEST(Grubbs, FlagsTheHandbooksUraniumReading) {
  const auto check = grubbs(uranium, Suspect::largest, 0.05);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->index, 7U);
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1, G cut off after four decimals, and its
  // critical value; further digits of G are computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(check->statistic, 2.4687, 1e-4);
  EXPECT_NEAR(check->statistic, 2.468764611, 1e-9);
  EXPECT_NEAR(check->critical, 2.032, 5e-4);
  EXPECT_TRUE(check->significant);
}

TEST(Grubbs, CriticalValuesAgreeWithThoseOfOtherPrograms) {
  // own input: the form of e-Handbook 1.3.5.17.1 with Student's t, six decimals; computed with SciPy 1.10 by
  // tests/support/computed_statistics.py.
  struct Case {
    std::size_t n;
    double one_5, one_1, two_5, two_1;
  };
  const std::array<Case, 4> cases{{{3, 1.153118, 1.154637, 1.154305, 1.154685},
                                   {4, 1.462500, 1.492500, 1.481250, 1.496250},
                                   {8, 2.031652, 2.2208, 2.126645, 2.2744},
                                   {30, 2.745132, 3.102897, 2.908473, 3.236078}}};
  for (const Case& c : cases) {
    EXPECT_NEAR(grubbs_critical(c.n, Suspect::largest, 0.05), c.one_5, 1e-6) << c.n;
    EXPECT_NEAR(grubbs_critical(c.n, Suspect::smallest, 0.01), c.one_1, 5e-5) << c.n;
    EXPECT_NEAR(grubbs_critical(c.n, Suspect::either_end, 0.05), c.two_5, 1e-6) << c.n;
    EXPECT_NEAR(grubbs_critical(c.n, Suspect::either_end, 0.01), c.two_1, 5e-5) << c.n;
  }
}

// input: levels.
TEST(Grubbs, CanNeverExceedNMinusOneOverRootN) {
  for (std::size_t n = 3; n <= 30; ++n) {
    std::vector<double> values(n, 2.0);
    values[n / 2] = 1e6;
    const auto count = static_cast<double>(n);
    const double most = (count - 1) / std::sqrt(count);
    EXPECT_NEAR(grubbs(values, Suspect::largest, 0.05)->statistic, most, 1e-12);
    EXPECT_LT(grubbs_critical(n, Suspect::either_end, 0.001), most);
  }
}

TEST(Grubbs, LooksOnlyAtTheEndItIsAskedAbout) {
  const auto smallest = grubbs(uranium, Suspect::smallest, 0.05);
  ASSERT_TRUE(smallest);
  EXPECT_EQ(smallest->index, 0U);
  EXPECT_FALSE(smallest->significant);
  const auto either = grubbs(uranium, Suspect::either_end, 0.05);
  ASSERT_TRUE(either);
  EXPECT_EQ(either->index, 7U);
  // own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(either->critical, 2.126645087, 1e-9);
  std::array<double, 8> mirrored{};
  for (std::size_t i = 0; i < mirrored.size(); ++i) mirrored[i] = -uranium[i];
  EXPECT_EQ(grubbs(mirrored, Suspect::smallest, 0.05)->index, 7U);
  EXPECT_TRUE(grubbs(mirrored, Suspect::smallest, 0.05)->significant);
}

TEST(Grubbs, IsNotDefinedForTwoValuesOrNoSpread) {
  EXPECT_FALSE(grubbs(std::array<double, 2>{1, 2}, Suspect::largest, 0.05));
  EXPECT_FALSE(grubbs(std::array<double, 4>{2, 2, 2, 2}, Suspect::either_end, 0.05));
  EXPECT_FALSE(grubbs(std::array<double, 3>{1, std::nan(""), 2}, Suspect::either_end, 0.05));
  EXPECT_TRUE(std::isnan(grubbs_critical(2, Suspect::largest, 0.05)));
  EXPECT_TRUE(std::isnan(grubbs_critical(5, Suspect::largest, 0)));
}

// derived: 0, 4, 4, 4 have the mean 3 and s = 2.
TEST(Grubbs, LooksAtTheFirstValueToo) {
  const auto check = grubbs(std::array<double, 4>{0, 4, 4, 4}, Suspect::smallest, 0.05);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->index, 0U);
  EXPECT_NEAR(check->statistic, 1.5, 1e-12);
}

TEST(Grubbs, OfTwoAsFarOffSuspectsTheFirst) {
  EXPECT_EQ(grubbs(std::array<double, 5>{4, 0, 4, 4, 0}, Suspect::smallest, 0.05)->index, 1U);
}

// derived: 0.1 lies 1.4625 below the mean of 1.5625, and 2.1 lies 0.5375 above it.
TEST(Grubbs, AtEitherEndSuspectsWhatIsFartherFromTheMean) {
  EXPECT_EQ(grubbs(std::array<double, 4>{2, 2.1, 2.05, 0.1}, Suspect::either_end, 0.05)->index, 3U);
}

// input: a small spread.
TEST(Grubbs, IsDefinedForASmallSpread) {
  EXPECT_TRUE(grubbs(std::array<double, 4>{2.000, 2.001, 2.000, 2.003}, Suspect::largest, 0.05));
}

TEST(Grubbs, HasNoCriticalValueWithoutASignificance) {
  for (const double significance : {-0.1, 1.0, 1.5}) {
    EXPECT_TRUE(std::isnan(grubbs_critical(5, Suspect::largest, significance))) << significance;
  }
}

}  // namespace
}  // namespace driftwarden::outliers_test

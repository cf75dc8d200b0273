// SPDX-License-Identifier: MIT
#include "statistics/trimmed_mean.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "statistics/random_numbers.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden::trimmed_mean_test {
namespace {

TEST(TrimmedMean, IsThatOfTheExample) {
  const TrimmedMean mean = trimmed_mean(std::vector<double>{100, 3, 1, 4, 2});
  EXPECT_EQ(mean.mean, 3);
  EXPECT_NEAR(mean.u, std::sqrt(2.0 / 3), 1e-15);  // derived: 2, 2, 3, 4, 4 about 3: 4 / (3·2)
  EXPECT_NEAR(mean.dof, 1.6, 1e-15);
}

TEST(TrimmedMean, IsThatOfAGeneralLibrary) {
  const std::vector<double> values{0.31, -0.12, 0.45, 0.08, 0.27, 3.9, 0.19, -0.05, 0.33, 0.22, 0.14, -2.6};
  const TrimmedMean mean = trimmed_mean(values);
  // own input: the mean as scipy.stats.mstats.trimmed_mean of SciPy 1.10.1 gives it with limits of 1/6 (printed in
  // full); u computed with NumPy 1.24 from the formula in the header.
  EXPECT_NEAR(mean.mean, 0.18625, 1e-12);
  EXPECT_NEAR(mean.u, 0.06859452116, 1e-10);
}

TEST(TrimmedMean, IsThePlainMeanOfFew) {
  const TrimmedMean mean = trimmed_mean(std::vector<double>{1, 2, 3});
  EXPECT_EQ(mean.mean, 2);
  EXPECT_NEAR(mean.u, 1 / std::sqrt(3.0), 1e-15);  // s/√n
  EXPECT_EQ(mean.dof, 2);
  EXPECT_TRUE(std::isnan(trimmed_mean(std::vector<double>{1}).mean));
}

TEST(TrimmedMean, DiffersFromAnotherAsTheExampleDoes) {
  const TrimmedMean difference =
      difference_of(trimmed_mean(std::vector<double>{1, 2, 3, 4, 100}), trimmed_mean(std::vector<double>{1, 2, 3}));
  EXPECT_EQ(difference.mean, 1);
  EXPECT_NEAR(difference.u, 1, 1e-15);
  EXPECT_NEAR(difference.dof, 3, 1e-12);  // derived: 1/((2/3)²/1.6 + (1/3)²/2)
}

TEST(TrimmedMean, IsHeldToWhatIsAllowed) {
  const TrimmedMean mean = trimmed_mean(std::vector<double>{1, 2, 3, 4, 100});
  EXPECT_NEAR(p_beyond(mean, 0), 0.092487855, 1e-8);  // own input: 2 t.sf(3/√(2/3), 1.6), SciPy 1.10.1
  EXPECT_NEAR(p_beyond(mean, 1), 0.164468138, 1e-8);  // own input: the same with 2
  EXPECT_EQ(p_beyond(mean, 4), 1);
  EXPECT_TRUE(std::isnan(p_beyond({}, 0)));
}

// How often p is below 0.01 where nothing is the matter; pumps of one spread, or of spreads up to ×2.7 apart.
double false_answers(std::size_t n, double unequal, test::RandomNumbers& random) {
  constexpr int trials = 4000;
  int found = 0;
  for (int trial = 0; trial < trials; ++trial) {
    std::vector<double> values;
    for (std::size_t i = 0; i < n; ++i)
      values.push_back(random.normal() * std::pow(unequal, static_cast<double>(i) / static_cast<double>(n - 1)));
    const TrimmedMean mean = trimmed_mean(values);
    // derived: 1 - 0.01/2
    found += std::fabs(mean.mean / mean.u) > student_t_quantile(0.995, mean.dof) ? 1 : 0;
  }
  return static_cast<double>(found) / trials;
}

// With ν = h - 1 it would be 0.0125 of equal pumps, and 0.0105 of unequal ones.
TEST(TrimmedMean, AnswersFalselyNoOftenerThanItsPSays) {
  test::RandomNumbers random(20261129);
  const std::vector<std::size_t> sizes{5, 6, 7, 10, 12, 15, 20};
  for (const double unequal : {1.0, 2.7}) {
    double sum = 0;
    for (const std::size_t n : sizes) sum += false_answers(n, unequal, random);
    // derived: 28,000 trials, four standard errors of 0.0006
    EXPECT_LT(sum / static_cast<double>(sizes.size()), 0.0124) << unequal;
  }
  EXPECT_NEAR(false_answers(3, 1, random), 0.01, 0.0063);  // derived: four standard errors of 0.0016
}

// derived: the mean of 1 and 3 is known to s / √2 = 1, with one degree of freedom; t with two is 1 - t / √(2 + t²).
TEST(TrimmedMean, OfTwoIsThatOfTwo) {
  const TrimmedMean two = trimmed_mean(std::vector<double>{1, 3});
  EXPECT_EQ(two.mean, 2);
  EXPECT_NEAR(two.u, 1, 1e-12);
  EXPECT_EQ(two.dof, 1);
}

TEST(TrimmedMean, IsHeldToWhatIsAllowedAlsoWhereItIsNearOrExact) {
  EXPECT_NEAR(p_beyond({0.5, 1, 2}, 0), 1 - 0.5 / 1.5, 1e-12);
  EXPECT_TRUE(std::isnan(p_beyond({0.5, 0, 2}, 0)));
}

}  // namespace
}  // namespace driftwarden::trimmed_mean_test

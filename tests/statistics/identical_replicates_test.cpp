// SPDX-License-Identifier: MIT
#include "statistics/identical_replicates.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "statistics/binomial.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::identical_replicates_test {
namespace {

// input: allowances, where nothing else is said.

TEST(IdenticalReplicates, AgreeWithASeparateComputation) {
  // own input: quadrature, six significant digits; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  struct Case {
    double sigma_in_steps;
    std::size_t n;
    double probability;
  };
  const std::array<Case, 11> cases{{{2, 2, 0.139596},
                                    {2, 3, 0.0225013},
                                    {2, 5, 0.000679262},
                                    {1, 2, 0.270903},
                                    {1, 3, 0.0847145},
                                    {1, 5, 0.00962327},
                                    {5, 2, 0.0563251},
                                    {5, 3, 0.00366331},
                                    {5, 5, 1.80046e-5},
                                    {0.5, 2, 0.486065},
                                    {0.5, 5, 0.0983163}}};
  for (const Case& c : cases) {
    EXPECT_NEAR(probability_of_identical_readings(c.n, c.sigma_in_steps) / c.probability, 1, 4e-6)
        << c.sigma_in_steps << " " << c.n;
  }
  EXPECT_NEAR(probability_of_identical_readings(3, 0.5), 0.27168, 5e-6);
}

TEST(IdenticalReplicates, FollowTheSimpleFormulaOnAFineDisplay) {
  const double two_pi = 2 * std::acos(-1.0);
  for (const std::size_t n : {2U, 3U, 5U}) {
    const auto m = static_cast<double>(n);
    const auto simple = [&](double sigma) {
      return std::pow(1 / sigma, m - 1) / std::sqrt(m) * std::pow(two_pi, -(m - 1) / 2);
    };
    EXPECT_NEAR(probability_of_identical_readings(n, 2) / simple(2), 1, 0.045);
    EXPECT_NEAR(probability_of_identical_readings(n, 20) / simple(20), 1, 0.0005);
  }
}

TEST(IdenticalReplicates, AgreeWithRandomReadings) {
  // input: allowance. 200 000 sets of three; standard error 0.0003.
  test::RandomNumbers random(3);
  int identical = 0;
  constexpr int sets = 200000;
  for (int i = 0; i < sets; ++i) {
    const double truth = random.uniform();
    const double first = std::floor(truth + 2 * random.normal());
    const double second = std::floor(truth + 2 * random.normal());
    const double third = std::floor(truth + 2 * random.normal());
    identical += first == second && second == third ? 1 : 0;
  }
  EXPECT_NEAR(identical / static_cast<double>(sets), probability_of_identical_readings(3, 2), 0.0015);
}

TEST(IdenticalReplicates, ManySetsOfThemAreTelling) {
  // own input: 30 sets of three, σ two display steps, four or more identical sets; computed with SciPy 1.10 by
  // tests/support/computed_statistics.py.
  EXPECT_NEAR(binomial_at_least(4, 30, probability_of_identical_readings(3, 2)), 0.00440135938, 1e-8);
}

TEST(IdenticalReplicates, AreCertainOnADisplayThatHardlyMoves) {
  EXPECT_NEAR(probability_of_identical_readings(3, 0.001), 1, 0.01);
  EXPECT_LE(probability_of_identical_readings(3, 1e-4), 1);
  EXPECT_EQ(probability_of_identical_readings(1, 2), 1);
}

TEST(IdenticalReplicates, NeedASpread) {
  EXPECT_TRUE(std::isnan(probability_of_identical_readings(3, 0)));
  EXPECT_TRUE(std::isnan(probability_of_identical_readings(0, 1)));
  EXPECT_TRUE(std::isnan(probability_of_identical_readings(3, std::nan(""))));
}

TEST(IdenticalReadings, OfOneAreCertain) {
  EXPECT_EQ(probability_of_identical_readings(1, 0.5), 1);
  EXPECT_TRUE(std::isnan(probability_of_identical_readings(1, std::numeric_limits<double>::infinity())));
}

}  // namespace
}  // namespace driftwarden::identical_replicates_test

// SPDX-License-Identifier: MIT
#include "verdict/replicates.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "statistics/random_numbers.hpp"

namespace driftwarden::replicates_test {
namespace {

// input: readings, steps and spreads, where nothing else is said.

Replicates set_of(std::vector<double> readings) {
  Replicates set;
  set.rows.resize(readings.size());
  set.indicated_l_min = std::move(readings);
  return set;
}

TEST(Replicates, AreEqualUnlessOneDiffers) {
  EXPECT_TRUE(set_of({2.001, 2.001, 2.001}).are_all_equal());
  EXPECT_FALSE(set_of({2.001, 2.001, 2.002}).are_all_equal());
}

// own input: spread of two display steps, five readings; computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(Replicates, AllEqualAreAsRareAsTheCalibratorScatters) {
  const Scatter scatter{0.002, 0.001, 20, 0.1};
  EXPECT_NEAR(chance_of_equal(set_of({2, 2, 2, 2, 2}), scatter).value(), 0.000679262, 1e-8);
}

TEST(Replicates, OfACoarseOrLittleKnownCalibratorTellNothing) {
  const Replicates set = set_of({2, 2, 2, 2, 2});
  EXPECT_FALSE(chance_of_equal(set, {0.0004, 0.001, 20, 0.1}));  // the display hides the scatter
  EXPECT_FALSE(chance_of_equal(set, {0.002, 0.001, 9, 0.1}));    // nine sets
  EXPECT_FALSE(chance_of_equal(set, {0.002, 0, 20, 0.1}));       // step not known
  EXPECT_FALSE(chance_of_equal(set_of({2, 2}), {0.002, 0.001, 20, 0.1}));
}

TEST(Replicates, FarOutIsTheReadingThatIsFar) {
  const std::vector<double> five{2.001, 2.004, 1.950, 2.000, 2.002};
  ASSERT_TRUE(far_out(five, 0.001));
  EXPECT_EQ(far_out(five, 0.001)->index, 2U);
  const std::vector<double> eight{2.001, 2.004, 2.000, 2.002, 2.003, 1.999, 2.050, 2.001};
  ASSERT_TRUE(far_out(eight, 0.001));
  EXPECT_EQ(far_out(eight, 0.001)->index, 6U);
  EXPECT_FALSE(far_out(std::vector<double>{2.001, 2.004, 1.999, 2.000, 2.002}, 0.001));
}

TEST(Replicates, OneStepApartAreNeverFarOut) {
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.000, 2.000, 2.000, 2.001}, 0.001));
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.000, 2.050}, 0));  // without a step, 0.05 may be one
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.000, 2.000}, 0.001));
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.100}, 0.001));
}

// The rate told in docs/uncertainty.md: at most 1 set in 100 of normal readings, whatever the display.
TEST(Replicates, AreFarOutByChanceInAtMostOneSetOfAHundred) {
  test::RandomNumbers random(4);
  constexpr int sets = 20000;
  for (const std::size_t n : {3U, 5U, 8U}) {
    for (const double sigma_in_steps : {0.5, 2.0, 50.0}) {
      int raised = 0;
      std::vector<double> readings(n);
      for (int i = 0; i < sets; ++i) {
        const double level = random.uniform();
        for (double& reading : readings)
          reading = 0.001 * (2000 + std::round(level + sigma_in_steps * random.normal()));
        raised += far_out(readings, 0.001) ? 1 : 0;
      }
      EXPECT_LE(raised, 0.01 * sets + 3 * std::sqrt(0.01 * sets)) << n << " readings, spread " << sigma_in_steps;
    }
  }
}

}  // namespace
}  // namespace driftwarden::replicates_test

// SPDX-License-Identifier: MIT
#include "statistics/binomial.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace driftwarden::binomial_test {
namespace {

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.

TEST(Binomial, AtLeastIsASumOfTerms) {
  // derived: 10 tosses of a fair coin, 8 or more heads: (45 + 10 + 1)/1024.
  EXPECT_NEAR(binomial_at_least(8, 10, 0.5), 56.0 / 1024, 1e-15);
  EXPECT_EQ(binomial_at_least(0, 10, 0.5), 1);
  EXPECT_EQ(binomial_at_least(11, 10, 0.5), 0);
  EXPECT_NEAR(binomial_at_least(35, 100, 0.2), 3.36087162e-4, 1e-11);  // own input: SciPy 1.10, as above
  EXPECT_TRUE(std::isnan(binomial_at_least(1, 2, 1.5)));
}

TEST(Binomial, HoldsAtBothEndsOfWhatAProbabilityCanBe) {
  EXPECT_EQ(binomial_at_least(1, 2, 0), 0);
  EXPECT_EQ(binomial_at_least(1, 2, 1), 1);
  EXPECT_NEAR(binomial_at_least(3, 3, 0.5), 0.125, 1e-15);  // derived: three heads of three
  EXPECT_TRUE(std::isnan(binomial_at_least(1, 2, -0.1)));
}

TEST(Binomial, RefusesAnImpossibleProbabilityWhateverIsAsked) {
  for (const double probability : {-0.1, 1.1, std::nan("")}) {
    EXPECT_TRUE(std::isnan(binomial_at_least(0, 5, probability)));
    EXPECT_TRUE(std::isnan(binomial_at_least(6, 5, probability)));
  }
}

}  // namespace
}  // namespace driftwarden::binomial_test

// SPDX-License-Identifier: MIT
#include "statistics/binomial.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftwarden::binomial_test {
namespace {

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.

// Values marked "R" were computed with R 4.2 (binom.test, pbinom), printed to ten digits.

TEST(Binomial, AtLeastIsASumOfTerms) {
  // derived: 10 tosses of a fair coin, 8 or more heads: (45 + 10 + 1)/1024.
  EXPECT_NEAR(binomial_at_least(8, 10, 0.5), 56.0 / 1024, 1e-15);
  EXPECT_EQ(binomial_at_least(0, 10, 0.5), 1);
  EXPECT_EQ(binomial_at_least(11, 10, 0.5), 0);
  EXPECT_NEAR(binomial_at_least(35, 100, 0.2), 3.36087162e-4, 1e-11);  // own input: SciPy 1.10, as above
  EXPECT_TRUE(std::isnan(binomial_at_least(1, 2, 1.5)));
}

TEST(ClopperPearson, AgreesWithOtherPrograms) {
  struct Case {
    std::size_t hits, n;
    double confidence, lower, upper;
  };
  const std::array<Case, 5> cases{{{34, 40, 0.90, 0.725255495, 0.9325990595},
                                   {34, 40, 0.95, 0.7016473332, 0.9428977418},
                                   {17, 20, 0.90, 0.6563361957, 0.9578305921},
                                   {20, 20, 0.95, 0.831566529, 1},
                                   {38, 40, 0.95, 0.830803136, 0.9938863534}}};
  for (const Case& c : cases) {
    const Bounds found = clopper_pearson(c.hits, c.n, c.confidence);
    EXPECT_NEAR(found.lower, c.lower, 1e-9);
    EXPECT_NEAR(found.upper, c.upper, 1e-9);
  }
}

// derived: half of the 5 % that are left out.
TEST(ClopperPearson, LeavesHalfTheRestOutAtEachEnd) {
  const Bounds found = clopper_pearson(7, 19, 0.95);
  EXPECT_NEAR(binomial_at_least(7, 19, found.lower), 0.025, 1e-12);
  EXPECT_NEAR(1 - binomial_at_least(8, 19, found.upper), 0.025, 1e-12);
}

// derived: (1 - p)^10 = 0.025.
TEST(ClopperPearson, OfNoHitsOrNoTrials) {
  EXPECT_EQ(clopper_pearson(0, 10, 0.95).lower, 0);
  EXPECT_NEAR(clopper_pearson(0, 10, 0.95).upper, 1 - std::pow(0.025, 0.1), 1e-12);
  EXPECT_TRUE(std::isnan(clopper_pearson(0, 0, 0.95).lower));
  EXPECT_TRUE(std::isnan(clopper_pearson(3, 2, 0.95).upper));
}

TEST(Binomial, HoldsAtBothEndsOfWhatAProbabilityCanBe) {
  EXPECT_EQ(binomial_at_least(1, 2, 0), 0);
  EXPECT_EQ(binomial_at_least(1, 2, 1), 1);
  EXPECT_NEAR(binomial_at_least(3, 3, 0.5), 0.125, 1e-15);  // derived: three heads of three
  EXPECT_TRUE(std::isnan(binomial_at_least(1, 2, -0.1)));
}

TEST(ClopperPearson, RefusesAConfidenceThatIsNone) {
  for (const double confidence : {-0.1, 0.0, 1.0, 1.5}) {
    EXPECT_TRUE(std::isnan(clopper_pearson(34, 40, confidence).lower)) << confidence;
    EXPECT_TRUE(std::isnan(clopper_pearson(34, 40, confidence).upper)) << confidence;
  }
}

TEST(Binomial, RefusesAnImpossibleProbabilityWhateverIsAsked) {
  for (const double probability : {-0.1, 1.1, std::nan("")}) {
    EXPECT_TRUE(std::isnan(binomial_at_least(0, 5, probability)));
    EXPECT_TRUE(std::isnan(binomial_at_least(6, 5, probability)));
  }
}

}  // namespace
}  // namespace driftwarden::binomial_test

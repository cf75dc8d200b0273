// SPDX-License-Identifier: MIT
#include "statistics/binomial.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

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

TEST(Binomial, TrialsOfTheirOwnProbabilityAgreeWithEqualOnes) {
  const std::vector<double> equal(30, 0.0225013);
  EXPECT_NEAR(at_least_of(4, equal), 0.00440135938, 5e-8);  // own input: as above, from a probability with more digits
  EXPECT_NEAR(at_least_of(4, equal), binomial_at_least(4, 30, 0.0225013), 1e-14);
}

TEST(Binomial, TrialsOfTheirOwnProbabilityCanBeCountedByHand) {
  const std::array<double, 2> two{0.5, 0.1};
  EXPECT_DOUBLE_EQ(at_least_of(1, two), 1 - 0.5 * 0.9);
  EXPECT_DOUBLE_EQ(at_least_of(2, two), 0.05);
  EXPECT_EQ(at_least_of(0, two), 1);
  EXPECT_EQ(at_least_of(3, two), 0);
  const std::array<double, 1> impossible{-0.1};
  EXPECT_TRUE(std::isnan(at_least_of(1, impossible)));
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
  const std::array<double, 2> sure{0.0, 1.0};
  EXPECT_EQ(at_least_of(1, sure), 1);
  EXPECT_EQ(at_least_of(2, sure), 0);
  EXPECT_TRUE(std::isnan(at_least_of(1, std::array<double, 1>{1.5})));
  EXPECT_TRUE(std::isnan(at_least_of(1, std::array<double, 1>{2.5})));
}

// In doubles the sum over these trials is 1.0000000000000002.
TEST(Binomial, IsNeverMoreThanOne) {
  EXPECT_EQ(at_least_of(1, std::array<double, 8>{0.4, 0.45, 0.43, 0.55, 0.01, 1.0, 0.3, 0.63}), 1);
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

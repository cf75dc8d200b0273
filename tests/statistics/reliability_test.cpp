// SPDX-License-Identifier: MIT
#include "statistics/reliability.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace driftwarden::reliability_test {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

TEST(FailureRateOf, OneIntervalIsThatOfTheShare) {
  std::vector<IntervalResult> results(15, {365, true});
  results.resize(20, {365, false});
  EXPECT_NEAR(failure_rate_of(results) / (-std::log(0.75) / 365), 1, 1e-14);
  // own input: 365 ln 0.9 / ln 0.75; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(interval_for_target(failure_rate_of(results), 0.90), 133.677, 5e-4);
}

// own input: root of the slope of the likelihood, computed with SciPy 1.10 by tests/support/computed_statistics.py;
// R 4.2 glm(cbind(fail, pass) ~ offset(log(t)), binomial("cloglog")) agreed when it was asked.
TEST(FailureRateOf, ResultsAtManyIntervalsIsTheMostLikely) {
  const std::array<std::array<int, 3>, 6> groups{
      {{3, 20, 19}, {6, 30, 27}, {9, 25, 21}, {12, 40, 32}, {18, 20, 13}, {24, 15, 8}}};
  std::vector<IntervalResult> results;
  for (const auto& [interval, n, in_tolerance] : groups) {
    for (int i = 0; i < n; ++i) results.push_back({static_cast<double>(interval), i < in_tolerance});
  }
  EXPECT_NEAR(failure_rate_of(results), 0.02101251, 5e-9);
  EXPECT_NEAR(interval_for_target(failure_rate_of(results), 0.90), 5.01418, 5e-6);
}

TEST(FailureRateOf, NoFailureAndNothingButFailures) {
  EXPECT_EQ(failure_rate_of(std::array<IntervalResult, 2>{{{365, true}, {200, true}}}), 0);
  EXPECT_EQ(failure_rate_of(std::array<IntervalResult, 2>{{{365, false}, {200, false}}}), infinite);
  EXPECT_TRUE(std::isnan(failure_rate_of({})));
  EXPECT_TRUE(std::isnan(failure_rate_of(std::array<IntervalResult, 1>{{{0, false}}})));
}

TEST(Reliability, RefusesTheImpossible) {
  EXPECT_TRUE(std::isnan(interval_for_target(-1, 0.9)));
  EXPECT_TRUE(std::isnan(interval_for_target(1, 1)));
  EXPECT_TRUE(std::isnan(interval_for_target(1, 0)));
  EXPECT_EQ(interval_for_target(0, 0.9), infinite);
}

// derived: with one failure at t and one success at 2t the slope vanishes at exp(λt) = 3/2.
TEST(FailureRateOf, ShortIntervalsIsThatOfLongOnes) {
  EXPECT_NEAR(failure_rate_of(std::array<IntervalResult, 2>{{{0.01, false}, {0.02, true}}}), std::log(1.5) / 0.01,
              1e-9);
}

// derived: one success at 1 and one failure at 2, so that 2 / (exp(2 λ) - 1) is 1.
TEST(FailureRateOf, OneSuccessInAUnitOfTimeIsFinite) {
  EXPECT_NEAR(failure_rate_of(std::array<IntervalResult, 2>{{{1, true}, {2, false}}}), std::log(3.0) / 2, 1e-12);
}

}  // namespace
}  // namespace driftwarden::reliability_test

// SPDX-License-Identifier: MIT
#include "statistics/control_limits.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

namespace driftwarden::control_limits_test {
namespace {

// NIST/SEMATECH e-Handbook 6.3.2.2.
constexpr std::array<double, 10> flow_rates{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};

// own input: ten sets of three calibrator readings, L/min; computed with SciPy 1.10 by
// tests/support/computed_statistics.py.

std::vector<MeanAndSpread> ten_sets() {
  const std::array<std::array<double, 3>, 10> readings{{{2.010, 2.012, 2.009},
                                                        {2.011, 2.008, 2.010},
                                                        {2.013, 2.010, 2.011},
                                                        {2.009, 2.011, 2.012},
                                                        {2.008, 2.010, 2.007},
                                                        {2.012, 2.013, 2.011},
                                                        {2.010, 2.009, 2.012},
                                                        {2.011, 2.010, 2.010},
                                                        {2.014, 2.012, 2.015},
                                                        {2.010, 2.011, 2.008}}};
  std::vector<MeanAndSpread> sets;
  for (const auto& set : readings) sets.push_back(mean_and_spread(set));
  return sets;
}

bool is_outside(double point, const ControlLimits& limits) { return point < limits.lower || point > limits.upper; }

TEST(IndividualsLimits, OfTheHandbooksFlowRates) {
  const auto charts = individuals_limits(flow_rates);
  ASSERT_TRUE(charts);
  EXPECT_NEAR(charts->location.centre, 50.81, 1e-12);
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, 55.8041 and 45.8159 with d2 rounded to 1.128,
  // and mean moving range 1.8778.
  EXPECT_NEAR(charts->location.upper, 55.8041, 2e-3);
  EXPECT_NEAR(charts->location.lower, 45.8159, 2e-3);
  EXPECT_NEAR(charts->spread.centre, 1.8778, 5e-5);
  // printed input: the same with d2 and D4 exact, computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(charts->location.upper, 55.80241168, 1e-8);
  EXPECT_NEAR(charts->location.lower, 45.81758832, 1e-8);
  EXPECT_NEAR(charts->spread.upper, 6.13382105, 1e-8);
  EXPECT_EQ(charts->spread.lower, 0);
  EXPECT_TRUE(charts->is_provisional());
  for (const double flow : flow_rates) EXPECT_FALSE(is_outside(flow, charts->location));
}

TEST(IndividualsLimits, SigmaIsAThirdOfTheReach) {
  const ControlLimits limits = individuals_limits(flow_rates)->location;
  EXPECT_NEAR(limits.upper - limits.centre, 3 * limits.sigma, 1e-12);
}

TEST(IndividualsLimits, FromTheMedianMovingRangeDontFollowAJump) {
  // own input: moving ranges 1, 1, 1, 1, 50, 1, 1 have the median 1, so sigma is 1/0.953873, computed with SciPy 1.10
  // by tests/support/computed_statistics.py.
  const std::array<double, 8> values{0, 1, 0, 1, 0, 50, 49, 50};
  EXPECT_NEAR(individuals_limits(values, MovingRangeAverage::median)->location.sigma, 1 / 0.953873, 1e-6);
  EXPECT_GT(individuals_limits(values)->location.sigma, 7);
}

TEST(IndividualsLimits, DontBridgeAMissingValue) {
  const double missing_value = std::nan("");
  const std::array<double, 6> values{1, 2, missing_value, 90, 92, 91};
  const auto charts = individuals_limits(values);
  ASSERT_TRUE(charts);
  EXPECT_NEAR(charts->spread.centre, 4.0 / 3, 1e-12);  // 1, 2, 1, without |90 - 2|
  EXPECT_EQ(charts->baseline_points, 5U);
  EXPECT_NEAR(charts->location.centre, 276.0 / 5, 1e-12);
  EXPECT_EQ(moving_ranges(values).size(), 5U);
  EXPECT_TRUE(std::isnan(moving_ranges(values)[2]));
}

TEST(IndividualsLimits, AreNotGivenWithoutSpread) {
  EXPECT_FALSE(individuals_limits(std::array<double, 4>{2, 2, 2, 2}));
  EXPECT_FALSE(individuals_limits(std::array<double, 1>{2}));
  EXPECT_FALSE(individuals_limits({}));
}

// input: 2.010 and the double after it are one figure.
TEST(IndividualsLimits, AreNotGivenForRoundingNoise) {
  const double next = std::nextafter(2.010, 3);
  EXPECT_FALSE(individuals_limits(std::array<double, 4>{2.010, next, 2.010, next}));
  EXPECT_FALSE(individuals_limits(std::array<double, 4>{0, 1e-14, 0, 2e-14}));  // as of percent from a nominal flow
  EXPECT_TRUE(individuals_limits(std::array<double, 4>{2.010, 2.010, 2.010, 2.0100001}));
}

TEST(MeanAndSLimits, AreNotGivenForRoundingNoise) {
  const double next = std::nextafter(2.010, 3);
  const std::vector<MeanAndSpread> sets(5, mean_and_spread(std::array<double, 3>{2.010, next, next}));
  EXPECT_FALSE(spread_baseline(sets));
}

TEST(MeanAndSLimits, OfSetsOfThree) {
  const auto sets = ten_sets();
  const auto baseline = spread_baseline(sets);
  ASSERT_TRUE(baseline);
  EXPECT_NEAR(baseline->s, 0.0013797552, 1e-9);
  const ControlCharts charts = mean_and_s_limits(*baseline, 3);
  EXPECT_NEAR(charts.location.lower, 2.0079367259, 1e-9);
  EXPECT_NEAR(charts.location.upper, 2.0133299407, 1e-9);
  EXPECT_NEAR(charts.spread.upper, 0.0035434454, 1e-9);
  EXPECT_EQ(charts.spread.lower, 0);
}

TEST(MeanAndSLimits, OfSetsThatDifferAreTheirOwn) {
  // Means 1 and 4 of 2 and 4 values: weighted 3; pooled s of 1 (ν 1) and 3 (ν 3): √(28/4).
  MeanAndSpread small;
  small.n = 2;
  small.mean = 1;
  small.s = 1;
  MeanAndSpread large;
  large.n = 4;
  large.mean = 4;
  large.s = 3;
  const MeanAndSpread single = mean_and_spread(std::array<double, 1>{100});
  const auto baseline = spread_baseline(std::array<MeanAndSpread, 3>{small, large, single});
  ASSERT_TRUE(baseline);
  EXPECT_EQ(baseline->sets, 2U);
  EXPECT_NEAR(baseline->centre, 3, 1e-15);
  EXPECT_NEAR(baseline->s, std::sqrt(7.0), 1e-15);
  // own input: A3(2) 2.6587, A3(4) 1.6281, B4(4) 2.2660; computed with SciPy 1.10 by
  // tests/support/computed_statistics.py.
  EXPECT_NEAR(mean_and_s_limits(*baseline, 2).location.upper, 3 + 2.6587 * std::sqrt(7.0), 2e-4);
  EXPECT_NEAR(mean_and_s_limits(*baseline, 4).location.upper, 3 + 1.6281 * std::sqrt(7.0), 2e-4);
  EXPECT_NEAR(mean_and_s_limits(*baseline, 4).spread.upper, 2.2660 * std::sqrt(7.0), 2e-4);
}

TEST(MeanAndSLimits, AreNotGivenWithoutSpread) {
  EXPECT_FALSE(spread_baseline({}));
  EXPECT_FALSE(spread_baseline(std::vector<MeanAndSpread>(5, mean_and_spread(std::array<double, 2>{1, 1}))));
}

TEST(ControlLimits, OfMeansOfReplicatesAreWiderFromDayToDay) {
  // The same ten sets: the spread within a set says little about that from day to day, and nothing is out.
  std::vector<double> means;
  for (const MeanAndSpread& set : ten_sets()) means.push_back(set.mean);
  const auto charts = individuals_limits(means);
  ASSERT_TRUE(charts);
  EXPECT_NEAR(charts->location.lower, 2.0053159718, 1e-9);
  EXPECT_NEAR(charts->location.upper, 2.0159506949, 1e-9);
  for (const double mean : means) EXPECT_FALSE(is_outside(mean, charts->location));
}

TEST(ControlLimits, AreProvisionalBelowTwentyPoints) {
  std::vector<double> values;
  for (int i = 0; i < 20; ++i) values.push_back(i % 3);
  EXPECT_FALSE(individuals_limits(values)->is_provisional());
  values.pop_back();
  EXPECT_TRUE(individuals_limits(values)->is_provisional());
}

// memory: B3 of ten readings, 0.284, as tables of factors for control charts print it.
TEST(MeanAndSLimits, OfTheSpreadOfTenReadingsHaveALowerEnd) {
  const ControlLimits spread = mean_and_s_limits({1, 2, 30}, 10).spread;
  EXPECT_NEAR(spread.lower / spread.centre, 0.284, 5e-4);
}

TEST(IndividualsLimits, AreNotGivenForZerosOrForInfinities) {
  EXPECT_FALSE(individuals_limits(std::array<double, 4>{0, 0, 0, 0}));
  EXPECT_FALSE(individuals_limits(std::array<double, 4>{0, INFINITY, 0, 1}));
}

}  // namespace
}  // namespace driftwarden::control_limits_test

// SPDX-License-Identifier: MIT
#include "statistics/global_risk.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "statistics/normal_distribution.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::global_risk_test {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

Bounds around(double half) { return {-half, half}; }

TEST(GlobalRisk, OfTheGuidesResistorsIsAsPrinted) {
  // memory: JCGM 106:2012 clause 9 prints 0.01 and 0.07 of resistors of 1500 Ω ± 0.2 Ω, s 0.12 Ω, u 0.04 Ω, accepted to
  // ± 0.18 Ω.
  const GlobalRisk risk = global_risk({0, 0.12, 0.04}, around(0.2), around(0.18));
  EXPECT_NEAR(risk.accepted_beyond, 0.01, 0.005);
  EXPECT_NEAR(risk.rejected_within, 0.07, 0.005);
  // own input: computed with SciPy 1.10 by tests/support/computed_statistics.py, to all its digits.
  EXPECT_NEAR(risk.beyond, 0.0955807045456294, 1e-14);
  EXPECT_NEAR(risk.accepted_beyond, 0.009878291521772284, 1e-13);
  EXPECT_NEAR(risk.rejected_within, 0.0690265104615213, 1e-13);
}

TEST(GlobalRisk, WithoutAGuardBandIsThatOfSciPy) {
  // own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.
  const GlobalRisk risk = global_risk({0, 0.12, 0.04}, around(0.2), around(0.2));
  EXPECT_NEAR(risk.accepted_beyond, 0.018942206717029116, 1e-13);
  EXPECT_NEAR(risk.rejected_within, 0.03720780017805769, 1e-13);
  EXPECT_NEAR(risk.accepted, 1 - risk.beyond + risk.accepted_beyond - risk.rejected_within, 1e-15);
}

TEST(GlobalRisk, OfOneLimitInTheMiddleIsAnOrthant) {
  // derived: P(X > 0, Y < 0) = 1/4 - arcsin(ρ)/2π = arccos(ρ)/2π; for s = u, ρ is √½ and that an eighth.
  const GlobalRisk risk = global_risk({0, 1, 1}, {-infinite, 0}, {-infinite, 0});
  EXPECT_NEAR(risk.accepted_beyond, 0.125, 1e-15);
  EXPECT_NEAR(risk.rejected_within, 0.125, 1e-15);
  const GlobalRisk finer = global_risk({5, 0.3, 0.1}, {-infinite, 5}, {-infinite, 5});
  EXPECT_NEAR(finer.accepted_beyond, std::acos(3 / std::sqrt(10)) / (2 * std::numbers::pi), 1e-14);
}

TEST(GlobalRisk, IsThatOfASimulation) {
  test::RandomNumbers random(1);
  constexpr int draws = 400000;
  const MeasuredPopulation of{0.4, 1.5, 0.5};
  const Bounds tolerance = around(2);
  const Bounds acceptance = around(1.6);
  int beyond = 0;
  int lost = 0;
  for (int i = 0; i < draws; ++i) {
    const double truth = of.mean + of.s * random.normal();
    const bool is_accepted = std::fabs(truth + of.u * random.normal()) <= acceptance.upper;
    const bool is_within = std::fabs(truth) <= tolerance.upper;
    beyond += is_accepted && !is_within ? 1 : 0;
    lost += is_within && !is_accepted ? 1 : 0;
  }
  const GlobalRisk risk = global_risk(of, tolerance, acceptance);
  const auto within_chance = [](int seen, double p) { return std::fabs(seen - draws * p) < 4 * std::sqrt(draws * p); };
  EXPECT_TRUE(within_chance(beyond, risk.accepted_beyond)) << beyond << " of " << draws * risk.accepted_beyond;
  EXPECT_TRUE(within_chance(lost, risk.rejected_within)) << lost << " of " << draws * risk.rejected_within;
}

TEST(GlobalRisk, OfWhatIsExactIsNone) {
  const GlobalRisk exact = global_risk({0, 1, 0}, around(1), around(1));
  EXPECT_EQ(exact.accepted_beyond, 0);
  EXPECT_EQ(exact.rejected_within, 0);
  EXPECT_NEAR(exact.accepted, 2 * normal_cdf(1) - 1, 1e-15);
  const GlobalRisk one = global_risk({0, 0, 1}, around(1), around(1));
  EXPECT_EQ(one.beyond, 0);
  EXPECT_NEAR(one.rejected_within, 2 * normal_cdf(-1), 1e-15);
  const GlobalRisk nothing = global_risk({0, 0, 0}, around(1), around(1));
  EXPECT_EQ(nothing.beyond + nothing.rejected_within, 0);
  EXPECT_EQ(nothing.accepted, 1);
}

TEST(GlobalRisk, AcceptsNothingWhereTheGuardBandLeavesNothing) {
  const GlobalRisk risk = global_risk({0, 1, 0.5}, around(1), {0.2, -0.2});
  EXPECT_EQ(risk.accepted, 0);
  EXPECT_EQ(risk.accepted_beyond, 0);
  EXPECT_NEAR(risk.rejected_within, 1 - risk.beyond, 1e-15);
}

TEST(GlobalRisk, OfANegativeSpreadIsNoFigure) {
  EXPECT_TRUE(std::isnan(global_risk({0, -1, 1}, around(1), around(1)).beyond));
  EXPECT_TRUE(std::isnan(global_risk({0, 1, std::nan("")}, around(1), around(1)).accepted));
}

}  // namespace
}  // namespace driftwarden::global_risk_test

// SPDX-License-Identifier: MIT
#include "statistics/welch_satterthwaite.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>

namespace driftwarden::welch_satterthwaite_test {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

TEST(WelchSatterthwaite, OfTheGumsEndGauge) {
  // printed input: JCGM 100:2008, H.1.6, which has 16.7 from contributions that were less rounded; from the printed
  // ones 16.76, computed with SciPy 1.10 by tests/support/computed_statistics.py.
  const std::array<UncertaintyContribution, 4> parts{{{25, 1, 18}, {9.7, 1, 25.6}, {2.9, 1, 50}, {16.6, 1, 2}}};
  EXPECT_NEAR(effective_degrees_of_freedom(parts), 16.7, 0.1);
  EXPECT_NEAR(effective_degrees_of_freedom(parts), 16.7645540, 1e-6);
}

TEST(WelchSatterthwaite, UsesSensitivities) {
  // second hand: inputs of the example of welch.satterthwaite in the R package metRology 0.9, which has
  // u 1.0161; 15.607960958 computed with SciPy 1.10 by tests/support/computed_statistics.py.
  const std::array<UncertaintyContribution, 4> parts{{{0.1, 1, infinite}, {0.3, 2, 6}, {0.2, 3, 8}, {1.1, 0.5, 3}}};
  EXPECT_NEAR(effective_degrees_of_freedom(parts) / 15.607960958, 1, 1e-9);
}

TEST(WelchSatterthwaite, OfOneInputIsItsOwn) {
  const std::array<UncertaintyContribution, 1> part{{{1e-120, -3, 7}}};
  EXPECT_DOUBLE_EQ(effective_degrees_of_freedom(part), 7);
}

TEST(WelchSatterthwaite, WithoutEstimatedInputsIsInfinite) {
  const std::array<UncertaintyContribution, 2> parts{{{0.1, 1, infinite}, {0.2, 1, infinite}}};
  EXPECT_EQ(effective_degrees_of_freedom(parts), infinite);
  EXPECT_EQ(effective_degrees_of_freedom({}), infinite);
}

TEST(WelchSatterthwaite, RefusesDegreesOfFreedomThatAreNone) {
  const std::array<UncertaintyContribution, 1> part{{{0.1, 1, 0}}};
  EXPECT_TRUE(std::isnan(effective_degrees_of_freedom(part)));
}

// JCGM 100 (GUM) G.4.1: cut to the next lower integer. The first is 14.999999999999998 as it is computed.
TEST(WelchSatterthwaite, IsCutDownToAWholeNumberButNotForRounding) {
  const std::array<UncertaintyContribution, 3> alike{{{1, 1, 5}, {1, 1, 5}, {1, 1, 5}}};
  EXPECT_EQ(whole_degrees_of_freedom(effective_degrees_of_freedom(alike)), 15);
  EXPECT_EQ(whole_degrees_of_freedom(14.75), 14);
  EXPECT_EQ(whole_degrees_of_freedom(0.5), 0.5);
  EXPECT_EQ(whole_degrees_of_freedom(infinite), infinite);
  EXPECT_TRUE(std::isnan(whole_degrees_of_freedom(std::nan(""))));
}

// input: one input with few degrees of freedom.
TEST(WelchSatterthwaite, OfFewerThanOneIsTakenAsItIs) {
  const std::array<UncertaintyContribution, 1> part{{{1, 1, 0.01}}};
  EXPECT_NEAR(effective_degrees_of_freedom(part), 0.01, 1e-12);
  EXPECT_EQ(whole_degrees_of_freedom(0.01), 0.01);
  EXPECT_EQ(whole_degrees_of_freedom(1.5), 1);
}

}  // namespace
}  // namespace driftwarden::welch_satterthwaite_test

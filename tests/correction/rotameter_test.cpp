// SPDX-License-Identifier: MIT
#include "correction/rotameter.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "correction/reference_conditions.hpp"

namespace driftwarden::rotameter_test {
namespace {

// input: conditions, where nothing else is said.

constexpr double half_a_digit_4 = 0.5e-4;

Conditions at(double t_celsius, double p_kpa) { return {celsius(t_celsius), Pressure(p_kpa)}; }

struct Row {
  double indicated;
  Conditions scale, use;
  double actual, change_percent, at_scale, at_25_101, volume_450_min;
};

// own input: the form of NMAM 4th edition, chapter D, section 7.a, step 7; computed with Python 3.11 by
// tests/support/computed_corrections.py.
const std::vector<Row>& rows() {
  static const std::vector<Row> all = {{2.00, at(20, 101.325), at(5, 84.5), 2.1333, 6.67, 1.8750, 1.9070, 960.0},
                                       {2.00, at(25, 101.325), at(35, 101.325), 2.0333, 1.66, 1.9673, 1.9673, 915.0},
                                       {2.00, at(23, 100.0), at(23, 80.0), 2.2361, 11.80, 1.7889, 1.7774, 1006.2},
                                       {1.70, at(21.1, 101.325), at(30, 83.3), 1.9031, 11.95, 1.5186, 1.5387, 856.4}};
  return all;
}

TEST(Rotameter, ShowsLessThanTheActualFlowInThinnerAir) {
  for (const Row& row : rows()) {
    const double actual = row.indicated * rotameter_factor(row.scale, row.use);
    EXPECT_NEAR(actual, row.actual, half_a_digit_4);
    EXPECT_NEAR(100 * (actual / row.indicated - 1), row.change_percent, 0.005);
    EXPECT_NEAR(actual * 450, row.volume_450_min, 0.05);
  }
}

TEST(Rotameter, FlowAtTheScalesConditionsStandsTheOtherWayUp) {
  for (const Row& row : rows()) {
    EXPECT_NEAR(row.indicated * rotameter_factor(row.use, row.scale), row.at_scale, half_a_digit_4);
  }
}

// own input: the table above; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(Rotameter, ActualFlowConvertsToReferenceConditions) {
  for (const Row& row : rows()) {
    const double actual = row.indicated * rotameter_factor(row.scale, row.use);
    EXPECT_NEAR(at_reference(actual, row.use, at(25, 101.325)), row.at_25_101, half_a_digit_4);
  }
}

// The consistency check: actual flow brought to the scale's conditions by the ideal gas is the flow at the scale's
// conditions. It fails where one of the two directions is turned over.
TEST(Rotameter, BothDirectionsAreTheSameAir) {
  for (const Row& row : rows()) {
    const double actual = row.indicated * rotameter_factor(row.scale, row.use);
    EXPECT_NEAR(at_reference(actual, row.use, row.scale), row.indicated * rotameter_factor(row.use, row.scale), 1e-14);
  }
}

TEST(Rotameter, IsRightAsItStandsAtTheConditionsOfItsScale) {
  for (const Row& row : rows()) {
    EXPECT_EQ(rotameter_factor(row.scale, row.scale), 1);
    EXPECT_EQ(rotameter_factor(row.use, row.use), 1);
  }
}

TEST(Rotameter, FactorGrowsWithTemperatureAndFallsWithPressure) {
  const Conditions scale = at(20, 101.325);
  for (double step = 0; step < 40; ++step) {
    EXPECT_LT(rotameter_factor(scale, at(step, 95)), rotameter_factor(scale, at(step + 1, 95)));
    EXPECT_GT(rotameter_factor(scale, at(20, 60 + step)), rotameter_factor(scale, at(20, 61 + step)));
  }
}

TEST(Rotameter, FactorThereAndBackIsOne) {
  for (const Row& row : rows()) {
    EXPECT_NEAR(rotameter_factor(row.scale, row.use) * rotameter_factor(row.use, row.scale), 1, 1e-15);
  }
}

// Source: 29 CFR 1926.1101 App. B, closing section, for "more than 5 %" (read).
TEST(ConditionsDiffer, OnlyWhenMoreThanTheRatioApart) {
  const Conditions scale{Temperature(300), Pressure(100)};
  const auto differs = [&](double t_kelvin, double p_kpa) {
    return differs_by_more_than(scale, {Temperature(t_kelvin), Pressure(p_kpa)}, 0.05);
  };
  EXPECT_FALSE(differs(300, 100));
  EXPECT_FALSE(differs(315, 100));  // exactly 5 %
  EXPECT_FALSE(differs(285, 100));
  EXPECT_FALSE(differs(300, 105));
  EXPECT_FALSE(differs(300, 95));
  EXPECT_TRUE(differs(315.01, 100));
  EXPECT_TRUE(differs(284.99, 100));
  EXPECT_TRUE(differs(300, 105.01));
  EXPECT_TRUE(differs(300, 94.99));
}

// derived: 5 % of 293.15 K are 14.66 K, so 34.6 °C is within and 34.7 °C is not.
TEST(ConditionsDiffer, ByRatioOfTheAbsoluteTemperatureNotOfTheCelsiusFigure) {
  EXPECT_FALSE(differs_by_more_than(at(20, 101.325), at(10, 101.325), 0.05));
  EXPECT_FALSE(differs_by_more_than(at(20, 101.325), at(34.6, 101.325), 0.05));
  EXPECT_TRUE(differs_by_more_than(at(20, 101.325), at(34.7, 101.325), 0.05));
}

}  // namespace
}  // namespace driftwarden::rotameter_test

// SPDX-License-Identifier: MIT
#include "correction/bubble.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "correction/reference_conditions.hpp"
#include "correction/vapour_pressure.hpp"

namespace driftwarden::bubble_test {
namespace {

// input: conditions and humidities, where nothing else is said.

constexpr double half_a_digit_4 = 0.5e-4;

Conditions at(double t_celsius, double p_kpa) { return {celsius(t_celsius), Pressure(p_kpa)}; }

struct Row {
  double reading;
  Conditions use;
  double saturation_kpa, dry_at_reference, as_it_stands_at_reference, error_percent;
  double ambient_0, ambient_30, ambient_50, ambient_80;
};

// own input: Dalton's law, vapour pressure by Wagner and Pruß (IAPWS SR1-86); computed with Python 3.11 by
// tests/support/computed_corrections.py.
const std::vector<Row>& rows() {
  static const std::vector<Row> all = {
      {2.000, at(23.0, 100.0), 2.8110, 1.9313, 1.9872, 2.89, 1.9438, 1.9603, 1.9715, 1.9885},
      {2.000, at(30.0, 84.5), 4.2469, 1.5579, 1.6404, 5.29, 1.8995, 1.9286, 1.9484, 1.9791},
      {1.700, at(20.0, 101.325), 2.3392, 1.6891, 1.7290, 2.36, 1.6608, 1.6723, 1.6801, 1.6920}};
  return all;
}

double corrected(const Row& row, BubbleHumidity kind, double humidity) {
  return row.reading * bubble_factor(kind, row.use, RelativeHumidity(humidity));
}

TEST(Bubble, TakesTheAirInTheTubeForSaturated) {
  for (const Row& row : rows()) {
    EXPECT_NEAR(saturation_vapour_pressure(row.use.temperature).value, row.saturation_kpa, half_a_digit_4);
  }
}

// own input: Dalton's law; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(Bubble, ReadingBecomesTheFlowOfDryAir) {
  for (const Row& row : rows()) {
    const auto referred = [&](BubbleHumidity kind) {
      return at_reference(corrected(row, kind, 0.5), row.use, at(25, 101.325));
    };
    const double dry = referred(BubbleHumidity::dry);
    const double as_it_stands = referred(BubbleHumidity::none);
    EXPECT_NEAR(dry, row.dry_at_reference, half_a_digit_4);
    EXPECT_NEAR(as_it_stands, row.as_it_stands_at_reference, half_a_digit_4);
    EXPECT_NEAR(100 * (as_it_stands / dry - 1), row.error_percent, 0.005);
  }
}

TEST(Bubble, ReadingBecomesTheFlowOfTheAirOfTheRoom) {
  for (const Row& row : rows()) {
    EXPECT_NEAR(corrected(row, BubbleHumidity::ambient, 0), row.ambient_0, half_a_digit_4);
    EXPECT_NEAR(corrected(row, BubbleHumidity::ambient, 0.3), row.ambient_30, half_a_digit_4);
    EXPECT_NEAR(corrected(row, BubbleHumidity::ambient, 0.5), row.ambient_50, half_a_digit_4);
    EXPECT_NEAR(corrected(row, BubbleHumidity::ambient, 0.8), row.ambient_80, half_a_digit_4);
  }
}

TEST(Bubble, WithoutHumidityCorrectionIsTakenAsItStands) {
  EXPECT_EQ(bubble_factor(BubbleHumidity::none, at(30, 84.5), RelativeHumidity(0.2)), 1);
}

TEST(Bubble, SaturatedRoomAirNeedsNoCorrectionAndDryRoomAirTheWholeOfIt) {
  for (const Row& row : rows()) {
    EXPECT_EQ(bubble_factor(BubbleHumidity::ambient, row.use, RelativeHumidity(1)), 1);
    EXPECT_EQ(bubble_factor(BubbleHumidity::ambient, row.use, RelativeHumidity(0)),
              bubble_factor(BubbleHumidity::dry, row.use, RelativeHumidity(0.7)));
  }
}

TEST(Bubble, FactorGrowsWithHumidityAndPressureAndFallsWithTemperature) {
  const auto factor = [](double t, double p, double humidity) {
    return bubble_factor(BubbleHumidity::ambient, at(t, p), RelativeHumidity(humidity));
  };
  for (double step = 0; step < 40; ++step) {
    EXPECT_LT(factor(25, 95, step / 40), factor(25, 95, (step + 1) / 40));
    EXPECT_LT(factor(25, 60 + step, 0.4), factor(25, 61 + step, 0.4));
    EXPECT_GT(factor(step, 95, 0.4), factor(step + 1, 95, 0.4));
  }
}

TEST(Bubble, HasNoFactorWhereWaterWouldBoil) {
  EXPECT_TRUE(std::isnan(bubble_factor(BubbleHumidity::dry, at(40, 7.3), RelativeHumidity(0))));
  EXPECT_FALSE(std::isnan(bubble_factor(BubbleHumidity::dry, at(40, 7.5), RelativeHumidity(0))));
  EXPECT_FALSE(std::isnan(bubble_factor(BubbleHumidity::dry, at(0, 0.9), RelativeHumidity(0))));
  EXPECT_TRUE(std::isnan(bubble_factor(BubbleHumidity::ambient, at(40, 7.5), RelativeHumidity(1.1))));
}

TEST(Bubble, HasNoFactorWhereTheVapourIsAllTheAirThereIs) {
  const double saturated = saturation_vapour_pressure(celsius(40)).value;
  EXPECT_TRUE(std::isnan(bubble_factor(BubbleHumidity::dry, at(40, saturated), RelativeHumidity(0))));
  EXPECT_TRUE(std::isnan(bubble_factor(BubbleHumidity::ambient, at(40, 1.5 * saturated), RelativeHumidity(1.5))));
}

}  // namespace
}  // namespace driftwarden::bubble_test

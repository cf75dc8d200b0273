// SPDX-License-Identifier: MIT
#include "correction/altitude.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>
#include <vector>

namespace driftwarden::altitude_test {
namespace {

// derived: the pound of 0.45359237 kg, the inch of 0.0254 m and 9.80665 m/s²; the foot of 0.3048 m; 760 mmHg to 101.325
// kPa. NIST Special Publication 811 (2008), appendix B, has the same figures.
constexpr double kpa_per_psi = 6.894757;
constexpr double metres_per_foot = 0.3048;
constexpr double kpa_per_mmhg = 101.325 / 760;

// own input: US Standard Atmosphere 1976, equation 33a; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(Altitude, PressureFollowsTheStandardAtmosphere) {
  const std::vector<std::pair<double, double>> metres_kpa = {
      {0, 101.325},   {304.8, 97.717}, {500, 95.461},  {1000, 89.875}, {1500, 84.556},
      {1524, 84.307}, {2000, 79.495},  {2500, 74.683}, {3000, 70.109}, {3048, 69.682}};
  for (const auto& [metres, kpa] : metres_kpa) EXPECT_NEAR(pressure_at_altitude(metres).value, kpa, 0.0005);
}

// Source: US Standard Atmosphere 1976, end of the lowest layer, 22 632.10 Pa (read second hand). The printed constants
// give 22 632.06: the 0.05 Pa is the rounding of the exponent.
TEST(Altitude, ReachesThePublishedPressureAtElevenKilometres) {
  EXPECT_NEAR(1000 * pressure_at_altitude(11000).value, 22632.10, 0.05);
}

// second hand: engineersedge.com, Standard Atmospheric Data for Altitude and Temperature, table 1, psia. It lies up to
// 0.02 % above the equation of the US Standard Atmosphere 1976, and prints three decimals: 0.003 psi.
TEST(Altitude, AgreesWithAPrintedTableInPsi) {
  const auto psia_at_feet = [](double feet) {
    return pressure_at_altitude(feet * metres_per_foot).value / kpa_per_psi;
  };
  EXPECT_NEAR(psia_at_feet(1000), 14.175, 0.003);
  EXPECT_NEAR(psia_at_feet(5000), 12.230, 0.003);
  EXPECT_NEAR(psia_at_feet(10000), 10.108, 0.003);
}

// printed input: 40 CFR 50 Appendix B, section 9.3.9, 2015 edition, 26 mmHg a 1000 ft: a rough rule, within 0.15 kPa at
// 1000 ft and, being straight, 4.3 % low at 10 000 ft. The last is computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(Altitude, StandsNearTheRoughRuleLowDownAndAboveItHighUp) {
  const auto by_rough_rule = [](double feet) { return 101.325 - 26 * kpa_per_mmhg * feet / 1000; };
  EXPECT_NEAR(pressure_at_altitude(1000 * metres_per_foot).value, by_rough_rule(1000), 0.15);
  EXPECT_NEAR(by_rough_rule(10000) / pressure_at_altitude(10000 * metres_per_foot).value, 1 - 0.043, 0.0005);
}

// own input: US Standard Atmosphere 1976; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(Altitude, LosesFivePercentOfPressureIn431Metres) {
  EXPECT_NEAR(pressure_at_altitude(431) / pressure_at_altitude(0), 0.95, 0.0001);
}

TEST(Altitude, PressureFallsAllTheWayUp) {
  for (double metres = -5000; metres < 11000; metres += 100) {
    EXPECT_GT(pressure_at_altitude(metres), pressure_at_altitude(metres + 100));
  }
}

TEST(Altitude, IsNotGuessedBeyondTheLowestLayer) {
  EXPECT_TRUE(std::isnan(pressure_at_altitude(11001).value));
  EXPECT_TRUE(std::isnan(pressure_at_altitude(-5001).value));
  EXPECT_TRUE(std::isnan(pressure_at_altitude(std::nan("")).value));
  EXPECT_FALSE(std::isnan(pressure_at_altitude(11000).value));
  EXPECT_FALSE(std::isnan(pressure_at_altitude(-5000).value));
}

}  // namespace
}  // namespace driftwarden::altitude_test

// SPDX-License-Identifier: MIT
#include "correction/reference_conditions.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace driftwarden::reference_conditions_test {
namespace {

// input: conditions, where nothing else is said.

constexpr double half_a_digit_4 = 0.5e-4;  // figures with four decimals
constexpr double kpa_per_mmhg = 101.325 / 760;

Conditions at(double t_celsius, double p_kpa) { return {celsius(t_celsius), Pressure(p_kpa)}; }
Conditions at_kelvin(double t_kelvin, double p_kpa) { return {Temperature(t_kelvin), Pressure(p_kpa)}; }

// own input: ideal gas, the form of 40 CFR 50 Appendix J, section 11.1, 2015 edition; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ReferenceConditions, TurnActualFlowIntoFlowAtFourUsualReferences) {
  struct Row {
    double flow, t, p, at_25_101, at_20_101, at_0_101, at_25_100;
  };
  const std::vector<Row> rows = {{2.000, 30.0, 95.0, 1.8442, 1.8133, 1.6896, 1.8687},
                                 {2.000, 10.0, 84.5, 1.7563, 1.7268, 1.6090, 1.7795},
                                 {1.700, -5.0, 101.325, 1.8902, 1.8585, 1.7317, 1.9152}};
  for (const Row& row : rows) {
    const auto converted = [&](Conditions reference) { return at_reference(row.flow, at(row.t, row.p), reference); };
    EXPECT_NEAR(converted(at(25, 101.325)), row.at_25_101, half_a_digit_4);
    EXPECT_NEAR(converted(at(20, 101.325)), row.at_20_101, half_a_digit_4);
    EXPECT_NEAR(converted(at(0, 101.325)), row.at_0_101, half_a_digit_4);
    EXPECT_NEAR(converted(at(25, 100)), row.at_25_100, half_a_digit_4);
  }
}

// Source: 40 CFR 50 App. J §11.1 for the form and 298 K (read); figure computed outside this program.
TEST(ReferenceConditions, FollowTheFormOfThePm10Method) {
  const double flow = at_reference(1130.0, at(8, 710 * kpa_per_mmhg), at_kelvin(298, 760 * kpa_per_mmhg));
  EXPECT_NEAR(flow, 1118.9, 0.05);
}

// Source: 40 CFR 50 App. B §9.2.14 for the form, pressure drop taken off (read); figure computed outside this program.
TEST(ReferenceConditions, FollowTheFormOfTheHighVolumeMethodForAVolume) {
  const double volume =
      at_reference(3000.0, at_kelvin(296, (750 - 20) * kpa_per_mmhg), at_kelvin(298, 760 * kpa_per_mmhg));
  EXPECT_NEAR(volume, 2901.0, 0.05);
}

// own input: 0.335 % per kelvin, 0.987 % per kilopascal near 25 °C, 101 kPa; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ReferenceConditions, AreAsSensitiveAsTheIdealGasSays) {
  const Conditions reference = at(25, 101.325);
  const double here = at_reference(2.0, at(25, 101.325), reference);
  EXPECT_NEAR(1 - at_reference(2.0, at(26, 101.325), reference) / here, 0.00335, 1.5e-5);
  EXPECT_NEAR(at_reference(2.0, at(25, 102.325), reference) / here - 1, 0.00987, 0.5e-5);
}

TEST(ReferenceConditions, LeaveAloneWhatIsAtReferenceAlready) {
  const Conditions reference = at(25, 101.325);
  EXPECT_EQ(at_reference(2.0, reference, reference), 2.0);
  EXPECT_EQ(at_reference(960.0, reference, reference), 960);
}

// own input: 2.000 L/min of the table above, backwards; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ReferenceConditions, LeadBackToTheActualFlow) {
  const Conditions reference = at(25, 101.325);
  EXPECT_NEAR(at_reference(1.7563, reference, at(10, 84.5)), 2.000, half_a_digit_4 * 1.2);
  for (double t = -20; t <= 45; t += 5) {
    for (double p = 60; p <= 105; p += 5) {
      const double there = at_reference(1.7, at(t, p), reference);
      EXPECT_NEAR(at_reference(there, reference, at(t, p)), 1.7, 1e-14);
    }
  }
}

TEST(ReferenceConditions, ConvertVolumeAsFlow) {
  const Conditions reference = at(20, 101.325);
  const double flow = at_reference(2.0, at(30, 95), reference);
  EXPECT_NEAR(at_reference(2.0 * 480, at(30, 95), reference), 480 * flow, 1e-11);
}

TEST(ReferenceConditions, GiveMoreAirWithPressureAndLessWithTemperature) {
  const Conditions reference = at(25, 101.325);
  for (double step = 0; step < 40; ++step) {
    const auto flow = [&](double t, double p) { return at_reference(2.0, at(t, p), reference); };
    EXPECT_LT(flow(20, 60 + step), flow(20, 61 + step));
    EXPECT_GT(flow(step, 95), flow(step + 1, 95));
  }
}

}  // namespace
}  // namespace driftwarden::reference_conditions_test

// SPDX-License-Identifier: MIT
#include "correction/reference_conditions.hpp"

#include <gtest/gtest.h>

#include <type_traits>
#include <vector>

namespace driftwarden::reference_conditions_test {
namespace {

// input: conditions, where nothing else is said.

constexpr double half_a_digit_4 = 0.5e-4;  // figures with four decimals
constexpr double kpa_per_mmhg = 101.325 / 760;

Conditions at(double t_celsius, double p_kpa) { return {celsius(t_celsius), Pressure(p_kpa)}; }
Conditions at_kelvin(double t_kelvin, double p_kpa) { return {Temperature(t_kelvin), Pressure(p_kpa)}; }

// Kinds that must not be mixed up: this is checked by the compiler.
static_assert(std::is_invocable_v<decltype(flow_at_reference), ActualFlow, Conditions, Conditions>);
static_assert(!std::is_invocable_v<decltype(flow_at_reference), ReferenceFlow, Conditions, Conditions>);
static_assert(!std::is_invocable_v<decltype(flow_at_reference), double, Conditions, Conditions>);
static_assert(!std::is_invocable_v<decltype(flow_at_conditions), ActualFlow, Conditions, Conditions>);
static_assert(!std::is_invocable_v<decltype(volume_at_reference), ReferenceVolume, Conditions, Conditions>);

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
    const auto converted = [&](Conditions reference) {
      return flow_at_reference(ActualFlow(row.flow), at(row.t, row.p), reference).value;
    };
    EXPECT_NEAR(converted(at(25, 101.325)), row.at_25_101, half_a_digit_4);
    EXPECT_NEAR(converted(at(20, 101.325)), row.at_20_101, half_a_digit_4);
    EXPECT_NEAR(converted(at(0, 101.325)), row.at_0_101, half_a_digit_4);
    EXPECT_NEAR(converted(at(25, 100)), row.at_25_100, half_a_digit_4);
  }
}

// Source: 40 CFR 50 App. J §11.1 for the form and 298 K (read); figure computed outside this program.
TEST(ReferenceConditions, FollowTheFormOfThePm10Method) {
  const ReferenceFlow flow =
      flow_at_reference(ActualFlow(1130), at(8, 710 * kpa_per_mmhg), at_kelvin(298, 760 * kpa_per_mmhg));
  EXPECT_NEAR(flow.value, 1118.9, 0.05);
}

// Source: 40 CFR 50 App. B §9.2.14 for the form, pressure drop taken off (read); figure computed outside this program.
TEST(ReferenceConditions, FollowTheFormOfTheHighVolumeMethodForAVolume) {
  const ReferenceVolume volume = volume_at_reference(ActualVolume(3000), at_kelvin(296, (750 - 20) * kpa_per_mmhg),
                                                     at_kelvin(298, 760 * kpa_per_mmhg));
  EXPECT_NEAR(volume.value, 2901.0, 0.05);
}

// own input: 0.335 % per kelvin, 0.987 % per kilopascal near 25 °C, 101 kPa; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ReferenceConditions, AreAsSensitiveAsTheIdealGasSays) {
  const Conditions reference = at(25, 101.325);
  const double here = flow_at_reference(ActualFlow(2), at(25, 101.325), reference).value;
  EXPECT_NEAR(1 - flow_at_reference(ActualFlow(2), at(26, 101.325), reference).value / here, 0.00335, 1.5e-5);
  EXPECT_NEAR(flow_at_reference(ActualFlow(2), at(25, 102.325), reference).value / here - 1, 0.00987, 0.5e-5);
}

TEST(ReferenceConditions, LeaveAFlowAloneThatIsAtReferenceAlready) {
  const Conditions reference = at(25, 101.325);
  EXPECT_EQ(flow_at_reference(ActualFlow(2.0), reference, reference), ReferenceFlow(2.0));
  EXPECT_EQ(flow_at_conditions(ReferenceFlow(2.0), reference, reference), ActualFlow(2.0));
  EXPECT_EQ(volume_at_reference(ActualVolume(960), reference, reference), ReferenceVolume(960));
}

// own input: 2.000 L/min of the table above, backwards; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ReferenceConditions, LeadBackToTheActualFlow) {
  const Conditions reference = at(25, 101.325);
  EXPECT_NEAR(flow_at_conditions(ReferenceFlow(1.7563), reference, at(10, 84.5)).value, 2.000, half_a_digit_4 * 1.2);
  for (double t = -20; t <= 45; t += 5) {
    for (double p = 60; p <= 105; p += 5) {
      const ReferenceFlow there = flow_at_reference(ActualFlow(1.7), at(t, p), reference);
      EXPECT_NEAR(flow_at_conditions(there, reference, at(t, p)).value, 1.7, 1e-14);
    }
  }
}

TEST(ReferenceConditions, ConvertVolumeAsFlow) {
  const Conditions reference = at(20, 101.325);
  const double flow = flow_at_reference(ActualFlow(2.0), at(30, 95), reference).value;
  EXPECT_NEAR(volume_at_reference(ActualFlow(2.0) * Minutes(480), at(30, 95), reference).value, 480 * flow, 1e-11);
}

TEST(ReferenceConditions, GiveMoreAirWithPressureAndLessWithTemperature) {
  const Conditions reference = at(25, 101.325);
  for (double step = 0; step < 40; ++step) {
    const auto flow = [&](double t, double p) { return flow_at_reference(ActualFlow(2), at(t, p), reference); };
    EXPECT_LT(flow(20, 60 + step), flow(20, 61 + step));
    EXPECT_GT(flow(step, 95), flow(step + 1, 95));
  }
}

}  // namespace
}  // namespace driftwarden::reference_conditions_test

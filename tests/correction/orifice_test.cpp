// SPDX-License-Identifier: MIT
#include "correction/orifice.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "correction/reference_conditions.hpp"

namespace driftwarden::orifice_test {
namespace {

constexpr double half_a_digit_4 = 0.5e-4;

Conditions at(double t_celsius, double p_kpa) { return {celsius(t_celsius), Pressure(p_kpa)}; }

// own input: choked flow, same form as 40 CFR 1065.642(c)(2), 2015 edition; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(Orifice, FlowGoesWithTheRootOfTheTemperature) {
  struct Row {
    double flow;
    Conditions start, end;
    double actual, reference_at_start, reference_at_end;
  };
  const std::vector<Row> rows = {{2.00, at(20, 101.325), at(35, 101.325), 2.0505, 2.0341, 1.9840},
                                 {2.00, at(25, 101.325), at(5, 84.5), 1.9318, 2.0000, 1.7268},
                                 {7.40, at(21, 101.3), at(32, 98.0), 7.5371, 7.4988, 7.1225}};
  for (const Row& row : rows) {
    const double end = row.flow * orifice_factor(row.start.temperature, row.end.temperature);
    EXPECT_NEAR(end, row.actual, half_a_digit_4);
    EXPECT_NEAR(at_reference(row.flow, row.start, at(25, 101.325)), row.reference_at_start, half_a_digit_4);
    EXPECT_NEAR(at_reference(end, row.end, at(25, 101.325)), row.reference_at_end, half_a_digit_4);
  }
}

// printed input: the example in 40 CFR 1065.642(c), 2015 edition; the result without the term for the molar
// mass, 18.679 mol/s, computed with Python 3.11 by tests/support/computed_corrections.py. The gas constant,
// 8.314472 J/(mol K), is that of CODATA 2006, from memory.
TEST(Orifice, GivesTheMolarFlowOfTheEngineTestExample) {
  const Conditions standard{Temperature(293.15), Pressure(101.325)};
  const Conditions calibration{Temperature(302.52), Pressure(99.654)};
  const Conditions test{Temperature(353.15), Pressure(98.836)};
  const double at_calibration = at_reference(0.4895 * 60000, standard, calibration);
  const double at_test = at_calibration * orifice_factor(calibration.temperature, test.temperature);
  const double cubic_metres_per_s = at_reference(at_test, test, standard) / 60000;
  EXPECT_NEAR(cubic_metres_per_s * 101325 / (8.314472 * 293.15), 18.679, 0.0005);
}

TEST(Orifice, FactorIsOneAtItsCalibrationTemperatureAndGrowsWithTemperature) {
  for (double t = -20; t < 45; ++t) {
    EXPECT_EQ(orifice_factor(celsius(t), celsius(t)), 1);
    EXPECT_LT(orifice_factor(celsius(20), celsius(t)), orifice_factor(celsius(20), celsius(t + 1)));
  }
}

}  // namespace
}  // namespace driftwarden::orifice_test

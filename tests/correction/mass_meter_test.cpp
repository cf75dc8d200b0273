// SPDX-License-Identifier: MIT
#include "correction/mass_meter.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "correction/reference_conditions.hpp"

namespace driftwarden::mass_meter_test {
namespace {

// input: conditions, where nothing else is said.

Conditions at(double t_celsius, double p_kpa) { return {celsius(t_celsius), Pressure(p_kpa)}; }

constexpr double fahrenheit_70_in_celsius = (70.0 - 32.0) / 1.8;

struct Row {
  double display;
  Conditions standard, site;
  double actual;
};

// own input: ideal gas; computed with Python 3.11 by tests/support/computed_corrections.py.
const std::vector<Row>& rows() {
  static const std::vector<Row> all = {{2.000, at(25, 101.325), at(30, 95.0), 2.1689},
                                       {2.000, at(0, 101.325), at(25, 101.325), 2.1830},
                                       {1.850, at(0, 101.325), at(22, 84.5), 2.3970},
                                       {2.000, at(fahrenheit_70_in_celsius, 101.325), at(35, 79.5), 2.6694}};
  return all;
}

TEST(MassMeter, DisplayBecomesActualFlow) {
  for (const Row& row : rows()) {
    EXPECT_NEAR(row.display * mass_factor(row.standard, row.site), row.actual, 0.5e-4);
  }
}

TEST(MassMeter, DisplayIsTheActualFlowStatedAtItsStandardConditions) {
  for (const Row& row : rows()) {
    const double actual = row.display * mass_factor(row.standard, row.site);
    EXPECT_NEAR(at_reference(actual, row.site, row.standard), row.display, 1e-14);
  }
}

TEST(MassMeter, FactorIsOneAtItsStandardConditions) {
  for (const Row& row : rows()) EXPECT_EQ(mass_factor(row.standard, row.standard), 1);
}

TEST(MassMeter, FactorGrowsWithTemperatureAndFallsWithPressure) {
  const Conditions standard = at(0, 101.325);
  for (double step = 0; step < 40; ++step) {
    EXPECT_LT(mass_factor(standard, at(step, 95)), mass_factor(standard, at(step + 1, 95)));
    EXPECT_GT(mass_factor(standard, at(20, 60 + step)), mass_factor(standard, at(20, 61 + step)));
  }
}

}  // namespace
}  // namespace driftwarden::mass_meter_test

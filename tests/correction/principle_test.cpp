// SPDX-License-Identifier: MIT
#include "correction/principle.hpp"

#include <gtest/gtest.h>

#include <boost/math/differentiation/autodiff.hpp>

#include "correction/mass_meter.hpp"
#include "correction/orifice.hpp"
#include "correction/rotameter.hpp"

namespace driftwarden::principle_test {
namespace {

// input: air and scale, where nothing else is said.

using boost::math::differentiation::make_ftuple;

FactorInputs inputs() {
  FactorInputs in;
  in.temperature_k = 278.15;
  in.pressure_kpa = 84.5;
  in.humidity = 0.5;
  in.scale_temperature = in.calibrated_temperature = Temperature(293.15);
  in.scale_pressure = Pressure(101.325);
  return in;
}

// The slopes of a factor by the forward derivative of the formula's own text.
template <class Factor>
Slopes derived(Factor factor) {
  const auto [kelvin, kpa] = make_ftuple<double, 1, 1>(278.15, 84.5);
  const auto f = factor(kelvin, kpa);
  const double value = f.derivative(0, 0);
  return {f.derivative(1, 0) / value, f.derivative(0, 1) / value};
}

void expect_slopes(Principle principle, const Slopes& by_formula) {
  const Slopes slopes = kind_of(principle).slopes(inputs());
  EXPECT_NEAR(slopes.per_k, by_formula.per_k, 1e-15) << to_text(principle);
  EXPECT_NEAR(slopes.per_kpa, by_formula.per_kpa, 1e-15) << to_text(principle);
}

// derived: by Boost.Math's forward derivative of the formula; the closed form is what the program uses, see
// docs/adr/0016-one-text-for-a-formula.md.
TEST(Principle, SlopesAreTheDerivativesOfItsFormula) {
  const auto both = [](const auto& kelvin, const auto& kpa, auto factor) {
    using Number = std::decay_t<decltype(kelvin * kpa)>;
    return factor(ConditionsIn<Number>{Number(293.15), Number(101.325)},
                  ConditionsIn<Number>{Number(kelvin), Number(kpa)});
  };
  expect_slopes(Principle::rotameter, derived([&](const auto& kelvin, const auto& kpa) {
                  return both(kelvin, kpa,
                              [](const auto& scale, const auto& use) { return rotameter_factor(scale, use); });
                }));
  expect_slopes(Principle::mass, derived([&](const auto& kelvin, const auto& kpa) {
                  return both(kelvin, kpa, [](const auto& scale, const auto& use) { return mass_factor(scale, use); });
                }));
  expect_slopes(Principle::orifice, derived([&](const auto& kelvin, const auto& kpa) {
                  return both(kelvin, kpa, [](const auto& scale, const auto& use) {
                    return orifice_factor(scale.kelvin, use.kelvin);
                  });
                }));
  expect_slopes(Principle::volumetric, {});
}

TEST(Principle, WritesTheFactorByTheFormulaThatItIsWorkedOutBy) {
  FactorInputs in = inputs();
  EXPECT_EQ(kind_of(Principle::rotameter).formula(in), "√((101.325 / 84.500) x (278.15 / 293.15))");
  EXPECT_EQ(kind_of(Principle::mass).formula(in), "(101.325 / 84.500) x (278.15 / 293.15)");
  EXPECT_EQ(kind_of(Principle::orifice).formula(in), "√(278.15 / 293.15)");
  in.temperature_k = 296.15;
  in.pressure_kpa = 100;
  in.practice.bubble_humidity = BubbleHumidity::ambient;
  EXPECT_EQ(kind_of(Principle::bubble).formula(in), "(100.000 - 2.8110) / (100.000 - 0.500 x 2.8110)");
  in.practice.bubble_humidity = BubbleHumidity::dry;
  EXPECT_EQ(kind_of(Principle::bubble).formula(in), "(100.000 - 2.8110) / 100.000");
}

TEST(Principle, LeavesAReadingAloneByPrincipleOrPractice) {
  FactorInputs in = inputs();
  EXPECT_TRUE(kind_of(Principle::volumetric).step(in).is_left_alone);
  EXPECT_TRUE(kind_of(Principle::bubble).step(in).is_left_alone);
  EXPECT_FALSE(kind_of(Principle::rotameter).step(in).is_left_alone);
  in.practice.rotameter = RotameterCorrection::beyond_5_percent;
  EXPECT_FALSE(kind_of(Principle::rotameter).step(in).is_left_alone);
  EXPECT_EQ(kind_of(Principle::rotameter).left_out(in), Correction::none);
  in.temperature_k = 293;
  in.pressure_kpa = 101;
  EXPECT_TRUE(kind_of(Principle::rotameter).step(in).is_left_alone);
  EXPECT_EQ(kind_of(Principle::rotameter).left_out(in), Correction::to_scale);
  EXPECT_EQ(kind_of(Principle::rotameter).slopes(in).per_k, 0);
  EXPECT_EQ(kind_of(Principle::bubble).left_out(in), Correction::of_humidity);
}

TEST(Principle, NamesThePracticeThatChangesIt) {
  EXPECT_EQ(kind_of(Principle::rotameter).practice, "rotameter_correction");
  EXPECT_EQ(kind_of(Principle::bubble).practice, "bubble_humidity");
  EXPECT_EQ(kind_of(Principle::mass).practice, "");
  EXPECT_EQ(kind_of(Principle::mass).scale, ", standard conditions");
}

}  // namespace
}  // namespace driftwarden::principle_test

// SPDX-License-Identifier: MIT
#include "correction/expected_indication.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace driftwarden::expected_indication_test {
namespace {

// input: conditions, scales and curves, where nothing else is said.

constexpr double t_5_c = 278.15;
constexpr double t_20_c = 293.15;
constexpr double half_a_digit_4 = 0.5e-4;

FactorInputs inputs(double temperature_k, double pressure_kpa, double humidity = missing) {
  FactorInputs in;
  in.temperature_k = temperature_k;
  in.pressure_kpa = pressure_kpa;
  in.humidity = humidity;
  in.scale_temperature = in.calibrated_temperature = Temperature(t_20_c);
  in.scale_pressure = Pressure(101.325);
  return in;
}

double shown(double actual_l_min, Principle principle, std::span<const ErrorPoint> curve, const FactorInputs& in) {
  return expected_indication(actual_l_min, curve, reading_factor(principle, in)).indicated_l_min;
}

const std::vector<ErrorPoint> no_errors;
const std::vector<ErrorPoint> one_percent_high = {{1.0, 0.01}, {3.0, 0.01}};
const std::vector<ErrorPoint> sloping = {{1.0, 0.01}, {2.0, 0.03}, {3.0, -0.01}};

// own input: 2.1333 L/min by NMAM 4th edition, chapter D, section 7.a, step 7, turned round; computed with Python 3.11
// by tests/support/computed_corrections.py.
TEST(ExpectedIndication, PutsBackThePrincipleFirstAndTheCertificateThen) {
  EXPECT_NEAR(shown(2.1333, Principle::rotameter, one_percent_high, inputs(t_5_c, 84.5)), 2.0200, half_a_digit_4);
}

// own input: errors between points, found by halving an interval of indications; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ExpectedIndication, SolvesForTheIndicationBetweenTwoPoints) {
  const FactorInputs anywhere = inputs(missing, missing);
  EXPECT_NEAR(shown(1.5, Principle::volumetric, sloping, anywhere), 1.530928, 0.5e-6);
  EXPECT_NEAR(shown(2.5, Principle::volumetric, sloping, anywhere), 2.522727, 0.5e-6);
  EXPECT_NEAR(shown(0.5, Principle::volumetric, sloping, anywhere), 0.505, 1e-12);  // derived: 0.5 * 1.01, flat outside
}

TEST(ExpectedIndication, ComesBackThroughTheCorrectionsForEachPrinciple) {
  for (std::size_t p = 0; p < std::size(principle_words); ++p) {
    const auto principle = static_cast<Principle>(p + 1);
    for (const auto* curve : {&no_errors, &one_percent_high, &sloping}) {
      for (const BubbleHumidity humidity : {BubbleHumidity::none, BubbleHumidity::ambient, BubbleHumidity::dry}) {
        for (const double temperature_k : {263.15, t_5_c, t_20_c, 313.15}) {
          for (const double flow : {0.4, 1.0, 1.7, 2.0, 2.5, 3.0, 4.0}) {
            FactorInputs in = inputs(temperature_k, 84.5, 0.4);
            in.practice.bubble_humidity = humidity;
            const ReadingFactor factor = reading_factor(principle, in);
            const ExpectedIndication expected = expected_indication(flow, *curve, factor);
            EXPECT_NEAR(correct_reading(expected.indicated_l_min, *curve, factor).actual_l_min, flow, 1e-12 * flow)
                << to_text(principle) << " at " << temperature_k << " K, " << flow << " L/min";
          }
        }
      }
    }
  }
}

// The display has 0.01 L/min; what it is to show, rounded to that, is the nominal flow within half a digit, by the
// steps through the certificate and the principle.
TEST(ExpectedIndication, IsTheNominalFlowWithinTheLastDigitOfTheDisplay) {
  for (std::size_t p = 0; p < std::size(principle_words); ++p) {
    const ReadingFactor factor = reading_factor(static_cast<Principle>(p + 1), inputs(t_5_c, 84.5, 0.4));
    const double exact = expected_indication(2.0, sloping, factor).indicated_l_min;
    const double rounded = std::round(exact * 100) / 100;
    EXPECT_NEAR(correct_reading(rounded, sloping, factor).actual_l_min, 2.0, 0.01);
  }
}

TEST(ExpectedIndication, SaysWhetherItLiesBeyondThePoints) {
  const ReadingFactor factor = reading_factor(Principle::volumetric, inputs(missing, missing));
  EXPECT_TRUE(expected_indication(0.5, sloping, factor).is_outside_certificate);
  EXPECT_FALSE(expected_indication(1.5, sloping, factor).is_outside_certificate);
  EXPECT_FALSE(expected_indication(1.0 / 1.01, sloping, factor).is_outside_certificate);
}

TEST(ExpectedIndication, IsMissingWhereSomethingLacksAndSaysWhat) {
  const ExpectedIndication expected =
      expected_indication(2.0, no_errors, reading_factor(Principle::rotameter, inputs(missing, 84.5)));
  EXPECT_TRUE(is_missing(expected.indicated_l_min));
  EXPECT_EQ(expected.lack, FactorLack::temperature);
}

// From 1.0 to 1.1 L/min the error grows so fast that the corrected flow falls: 1.0 L/min is shown in three ways.
TEST(ExpectedIndication, IsMissingWhereMoreThanOneIndicationGivesTheFlow) {
  const std::vector<ErrorPoint> steep = {{1.0, 0.0}, {1.1, 0.2}, {2.0, 0.2}};
  const ReadingFactor factor = reading_factor(Principle::volumetric, inputs(missing, missing));
  EXPECT_TRUE(is_missing(expected_indication(0.95, steep, factor).indicated_l_min));
  EXPECT_FALSE(is_missing(expected_indication(0.5, steep, factor).indicated_l_min));
  EXPECT_FALSE(is_missing(expected_indication(1.5, steep, factor).indicated_l_min));
}

}  // namespace
}  // namespace driftwarden::expected_indication_test

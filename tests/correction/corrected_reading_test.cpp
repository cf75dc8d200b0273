// SPDX-License-Identifier: MIT
#include "correction/corrected_reading.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace driftwarden::corrected_reading_test {
namespace {

// input: conditions, scales and curves, where nothing else is said.

using Lack = CorrectedReading::Lack;

constexpr double half_a_digit_4 = 0.5e-4;
constexpr double t_5_c = 278.15;
constexpr double t_20_c = 293.15;
constexpr double t_23_c = 296.15;

Instrument calibrator(Principle principle) {
  Instrument made;
  made.kind = InstrumentKind::calibrator;
  made.principle = principle;
  return made;
}

Instrument with_scale(Principle principle, double t_kelvin, double p_kpa) {
  Instrument made = calibrator(principle);
  made.scale_temperature = Temperature(t_kelvin);
  made.scale_pressure = Pressure(p_kpa);
  return made;
}

const std::vector<ErrorPoint> no_errors;
const std::vector<ErrorPoint> one_percent_high = {{1.0, 0.01}, {3.0, 0.01}};
const Instrument rotameter_for_20_c = with_scale(Principle::rotameter, t_20_c, 101.325);

// The conditions of a reading; everything is missing unless given.
struct Air {
  double temperature_k = missing;
  double pressure_kpa = missing;
  double humidity = missing;
};

FactorInputs inputs(Air air, const Instrument& instrument, CorrectionPractice practice) {
  return {air.temperature_k,
          air.pressure_kpa,
          air.humidity,
          instrument.scale_temperature,
          instrument.scale_pressure,
          instrument.scale_temperature,
          practice};
}

CorrectedReading corrected(double indicated, Air air, const Instrument& instrument, CorrectionPractice practice = {},
                           std::span<const ErrorPoint> curve = no_errors) {
  return correct_reading(indicated, instrument.principle, curve, inputs(air, instrument, practice));
}

void expect_lack(const CorrectedReading& reading, Lack lack) {
  EXPECT_EQ(reading.lack, lack);
  EXPECT_TRUE(is_missing(reading.actual_l_min));
  EXPECT_TRUE(is_missing(reading.principle_factor));
  EXPECT_FALSE(is_missing(reading.after_certificate_l_min));  // this step is known nevertheless
}

// own input: 2.1333 L/min by NMAM 4th edition, chapter D, section 7.a, step 7; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(CorrectedReading, TakesTheCertificateFirstAndThePrincipleThen) {
  const auto reading = corrected(2.02, {t_5_c, 84.5}, rotameter_for_20_c, {}, one_percent_high);
  EXPECT_EQ(reading.indicated_l_min, 2.02);
  EXPECT_EQ(reading.certificate_error, 0.01);
  EXPECT_FALSE(reading.is_outside_certificate);
  EXPECT_NEAR(reading.after_certificate_l_min, 2.00, 1e-15);
  EXPECT_NEAR(reading.principle_factor, 2.1333 / 2, half_a_digit_4 / 2);
  EXPECT_NEAR(reading.actual_l_min, 2.1333, half_a_digit_4);
  EXPECT_EQ(reading.lack, Lack::nothing);
}

// The order shows where the error depends on the flow: the curve is read at the indication, not at the corrected flow.
TEST(CorrectedReading, ReadsTheCertificateAtTheIndication) {
  const std::vector<ErrorPoint> curve = {{2.0, 0.02}, {2.2, 0.04}};
  const auto reading = corrected(2.1, {t_5_c, 84.5}, rotameter_for_20_c, {}, curve);
  EXPECT_NEAR(reading.certificate_error, 0.03, 1e-15);
  EXPECT_NEAR(reading.actual_l_min, 2.1 / 1.03 * reading.principle_factor, 1e-15);
}

TEST(CorrectedReading, DividesByOnePlusTheErrorAndDoesNotSubtractIt) {
  const auto reading = corrected(2.0, {}, calibrator(Principle::volumetric), {}, std::vector<ErrorPoint>{{2.0, 0.05}});
  EXPECT_NEAR(reading.actual_l_min, 2.0 / 1.05, 1e-15);
}

TEST(CorrectedReading, SaysWhereTheCertificateDoesNotReach) {
  const auto reading = corrected(4.04, {}, calibrator(Principle::volumetric), {}, one_percent_high);
  EXPECT_TRUE(reading.is_outside_certificate);
  EXPECT_NEAR(reading.actual_l_min, 4.00, 1e-15);
}

TEST(CorrectedReading, OfAVolumetricMeterNeedsNoConditions) {
  const auto reading = corrected(2.0, {}, calibrator(Principle::volumetric));
  EXPECT_EQ(reading.principle_factor, 1);
  EXPECT_EQ(reading.actual_l_min, 2.0);
  EXPECT_EQ(reading.lack, Lack::nothing);
  EXPECT_TRUE(is_missing(reading.humidity_effect));
}

// own input: ideal gas, 2.1689 L/min computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CorrectedReading, OfAMassMeterIsBroughtToTheConditionsOfTheReading) {
  const auto meter = with_scale(Principle::mass, 298.15, 101.325);
  EXPECT_NEAR(corrected(2.0, {303.15, 95.0}, meter).actual_l_min, 2.1689, half_a_digit_4);
}

// own input: choked flow, 2.0505 L/min computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CorrectedReading, OfAnOrificeNeedsOnlyATemperature) {
  Instrument orifice = calibrator(Principle::orifice);
  orifice.scale_temperature = Temperature(t_20_c);
  EXPECT_NEAR(corrected(2.0, {308.15}, orifice).actual_l_min, 2.0505, half_a_digit_4);
}

// own input: the same flow; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CorrectedReading, OfAnOrificeFollowsTheTemperatureItWasCalibratedAt) {
  FactorInputs air;
  air.temperature_k = 308.15;
  EXPECT_EQ(correct_reading(2.0, Principle::orifice, no_errors, air).lack, Lack::scale_conditions);
  air.calibrated_temperature = Temperature(t_20_c);
  EXPECT_NEAR(correct_reading(2.0, Principle::orifice, no_errors, air).actual_l_min, 2.0505, half_a_digit_4);
}

TEST(CorrectedReading, OfARotameterTellsWhatItLacks) {
  const Instrument no_scale = calibrator(Principle::rotameter);
  Instrument half_a_scale = no_scale;
  half_a_scale.scale_temperature = Temperature(t_20_c);
  expect_lack(corrected(2.0, {missing, 84.5}, rotameter_for_20_c), Lack::temperature);
  expect_lack(corrected(2.0, {t_5_c, missing}, rotameter_for_20_c), Lack::pressure);
  expect_lack(corrected(2.0, {t_5_c, 84.5}, no_scale), Lack::scale_conditions);
  expect_lack(corrected(2.0, {t_5_c, 84.5}, half_a_scale), Lack::scale_conditions);
  expect_lack(corrected(2.0, {missing, missing}, no_scale), Lack::temperature);
}

TEST(CorrectedReading, OfAMassMeterTellsWhatItLacks) {
  const auto meter = with_scale(Principle::mass, t_20_c, 101.325);
  expect_lack(corrected(2.0, {missing, 95}, meter), Lack::temperature);
  expect_lack(corrected(2.0, {t_20_c, missing}, meter), Lack::pressure);
  expect_lack(corrected(2.0, {t_20_c, 95}, calibrator(Principle::mass)), Lack::scale_conditions);
}

TEST(CorrectedReading, OfAnOrificeTellsWhatItLacks) {
  expect_lack(corrected(2.0, {missing, 95}, with_scale(Principle::orifice, t_20_c, 101.325)), Lack::temperature);
  expect_lack(corrected(2.0, {t_20_c, 95}, calibrator(Principle::orifice)), Lack::scale_conditions);
}

TEST(CorrectedReading, TakesConditionsThatCanNotBeForMissing) {
  expect_lack(corrected(2.0, {0, 84.5}, rotameter_for_20_c), Lack::temperature);
  expect_lack(corrected(2.0, {t_5_c, -1}, rotameter_for_20_c), Lack::pressure);
  expect_lack(corrected(2.0, {t_5_c, 84.5}, with_scale(Principle::mass, 0, 101.325)), Lack::scale_conditions);
  expect_lack(corrected(2.0, {t_5_c, 84.5}, with_scale(Principle::mass, t_20_c, 0)), Lack::scale_conditions);
}

TEST(CorrectedReading, OfACalibratorWithoutPrincipleIsNotGuessed) {
  expect_lack(corrected(2.0, {t_20_c, 101.325}, calibrator(Principle::none)), Lack::scale_conditions);
}

// derived: 5 % of 293.15 K are 14.7 K, so 279.15 K is within; 29 CFR 1926.1101 Appendix B, 2015 edition, last section,
// for "more than 5 %".
TEST(CorrectedReading, OfARotameterIsLeftAloneWithinFivePercentWhereThatIsThePractice) {
  const CorrectionPractice practice{BubbleHumidity::none, RotameterCorrection::beyond_5_percent};
  EXPECT_EQ(corrected(2.0, {t_5_c + 1, 101.325}, rotameter_for_20_c, practice).actual_l_min, 2.0);
  EXPECT_EQ(corrected(2.0, {t_20_c, 101.325 * 0.95}, rotameter_for_20_c, practice).actual_l_min, 2.0);
  EXPECT_GT(corrected(2.0, {t_20_c, 101.325 * 0.949}, rotameter_for_20_c, practice).actual_l_min, 2.05);
  EXPECT_LT(corrected(2.0, {t_5_c, 101.325}, rotameter_for_20_c, practice).actual_l_min, 1.95);
  expect_lack(corrected(2.0, {t_20_c, missing}, rotameter_for_20_c, practice), Lack::pressure);
}

TEST(CorrectedReading, OfARotameterIsNeverCorrectedWhereThatIsThePractice) {
  const CorrectionPractice practice{BubbleHumidity::none, RotameterCorrection::never};
  const auto reading = corrected(2.0, {}, calibrator(Principle::rotameter), practice);
  EXPECT_EQ(reading.actual_l_min, 2.0);
  EXPECT_EQ(reading.lack, Lack::nothing);
}

// Bubble figures: Dalton's law; 1.9715 and 1.9438 of 2.000 at 23.0 °C, 100.0 kPa were computed outside this program.
constexpr CorrectionPractice to_ambient{BubbleHumidity::ambient, RotameterCorrection::always};
constexpr CorrectionPractice to_dry{BubbleHumidity::dry, RotameterCorrection::always};

// own input: Dalton's law; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CorrectedReading, OfABubbleMeterStandsByDefaultWithTheEffectOfHumidityShown) {
  const auto reading = corrected(2.0, {t_23_c, 100.0, 0.5}, calibrator(Principle::bubble));
  EXPECT_EQ(reading.actual_l_min, 2.0);
  EXPECT_NEAR(reading.humidity_effect, 1.9715 / 2 - 1, half_a_digit_4 / 2);
}

// own input: Dalton's law; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CorrectedReading, OfABubbleMeterShowsTheEffectOfDryAirWhereNoHumidityWasRead) {
  const auto reading = corrected(2.0, {t_23_c, 100.0}, calibrator(Principle::bubble));
  EXPECT_EQ(reading.actual_l_min, 2.0);
  EXPECT_NEAR(reading.humidity_effect, 1.9438 / 2 - 1, half_a_digit_4 / 2);
}

TEST(CorrectedReading, OfABubbleMeterStandsWithoutConditionsToo) {
  for (const Air& air : {Air{}, Air{t_23_c, missing, 0.5}, Air{missing, 100, 0.5}}) {
    const auto reading = corrected(2.0, air, calibrator(Principle::bubble));
    EXPECT_EQ(reading.actual_l_min, 2.0);
    EXPECT_EQ(reading.lack, Lack::nothing);
    EXPECT_TRUE(is_missing(reading.humidity_effect));
  }
}

// own input: Dalton's law; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CorrectedReading, OfABubbleMeterIsCorrectedForHumidityWhereThatIsThePractice) {
  const Instrument meter = calibrator(Principle::bubble);
  const Air air{t_23_c, 100.0, 0.5};
  EXPECT_NEAR(corrected(2.0, air, meter, to_ambient).actual_l_min, 1.9715, half_a_digit_4);
  EXPECT_NEAR(corrected(2.0, air, meter, to_dry).actual_l_min, 1.9438, half_a_digit_4);
  EXPECT_NEAR(corrected(2.0, {t_23_c, 100.0}, meter, to_dry).actual_l_min, 1.9438, half_a_digit_4);
}

TEST(CorrectedReading, OfABubbleMeterTellsWhatTheHumidityCorrectionLacks) {
  const Instrument meter = calibrator(Principle::bubble);
  expect_lack(corrected(2.0, {t_23_c, 100.0}, meter, to_ambient), Lack::humidity);
  expect_lack(corrected(2.0, {missing, 100.0, 0.5}, meter, to_ambient), Lack::temperature);
  expect_lack(corrected(2.0, {t_23_c, missing, 0.5}, meter, to_dry), Lack::pressure);
  expect_lack(corrected(2.0, {t_23_c, 2.0, 0.5}, meter, to_dry), Lack::pressure);  // water would boil
  expect_lack(corrected(2.0, {t_23_c, 2.0, 0.5}, meter, to_ambient), Lack::pressure);
  EXPECT_EQ(corrected(2.0, {t_23_c, 2.0, 0.5}, meter).actual_l_min, 2.0);
}

TEST(CorrectedReading, WithoutIndicationHasNoFlow) {
  const auto reading = corrected(missing, {}, calibrator(Principle::volumetric), {}, one_percent_high);
  EXPECT_TRUE(is_missing(reading.actual_l_min));
}

TEST(CorrectedReading, OfACalibratorFoundShowingNothingHasNoFlow) {
  const std::vector<ErrorPoint> dead = {{0.0, -1.0}};
  EXPECT_TRUE(is_missing(corrected(0.0, {}, calibrator(Principle::volumetric), {}, dead).actual_l_min));
}

TEST(CorrectedReading, GrowsWithTheIndicationForEveryPrinciple) {
  const std::vector<ErrorPoint> curve = {{0.5, -0.02}, {1.7, 0.013}, {2.2, 0.009}, {5.1, 0.031}};
  const std::vector<Instrument> all = {calibrator(Principle::volumetric), calibrator(Principle::bubble),
                                       rotameter_for_20_c, with_scale(Principle::mass, t_20_c, 101.325),
                                       with_scale(Principle::orifice, t_20_c, 101.325)};
  for (const Instrument& instrument : all) {
    double before = 0;
    for (double indicated = 0.1; indicated < 6; indicated += 0.05) {
      const double actual = corrected(indicated, {t_5_c, 84.5, 0.4}, instrument, to_ambient, curve).actual_l_min;
      EXPECT_GT(actual, before);
      before = actual;
    }
  }
}

TEST(CorrectedReading, IsTheIndicationAtTheConditionsOfTheScale) {
  for (const Principle principle : {Principle::rotameter, Principle::mass, Principle::orifice}) {
    const auto reading = corrected(2.0, {t_20_c, 101.325}, with_scale(principle, t_20_c, 101.325));
    EXPECT_EQ(reading.principle_factor, 1);
    EXPECT_EQ(reading.actual_l_min, 2.0);
  }
}

TEST(CorrectedReading, TakesAnyPressureAboveNoneForOne) {
  EXPECT_EQ(corrected(2.0, {t_20_c, 0.5}, rotameter_for_20_c).lack, Lack::nothing);
}

TEST(CorrectedReading, OfAScaleThatWasTakenBackLacksIt) {
  Instrument meter = rotameter_for_20_c;
  meter.scale_temperature.reset();
  expect_lack(corrected(2.0, {t_5_c, 84.5}, meter), Lack::scale_conditions);
  meter = rotameter_for_20_c;
  meter.scale_pressure.reset();
  expect_lack(corrected(2.0, {t_5_c, 84.5}, meter), Lack::scale_conditions);
  expect_lack(corrected(2.0, {t_5_c, 95}, with_scale(Principle::orifice, 0, 101.325)), Lack::scale_conditions);
}

// derived: the root of 95 over 100 kPa is 0.9747; within five percent, and corrected all the same.
TEST(CorrectedReading, OfARotameterIsAlwaysCorrectedByDefault) {
  const auto meter = with_scale(Principle::rotameter, t_20_c, 95);
  EXPECT_NEAR(corrected(2.0, {t_20_c, 98}, meter).actual_l_min, 2.0 * std::sqrt(95.0 / 98), 1e-12);
}

TEST(CorrectedReading, OfABubbleMeterTakesDryRoomAirForReadAndNotForMissing) {
  const auto reading = corrected(2.0, {t_23_c, 100.0, 0.0}, calibrator(Principle::bubble), to_ambient);
  EXPECT_EQ(reading.lack, Lack::nothing);
  EXPECT_EQ(reading.actual_l_min, corrected(2.0, {t_23_c, 100.0}, calibrator(Principle::bubble), to_dry).actual_l_min);
}

TEST(CorrectedReading, ByACalibratorThatShowedNothingOrLessHasNoFlow) {
  for (const double error : {-1.0, -1.5}) {
    const std::vector<ErrorPoint> dead = {{1.0, error}};
    EXPECT_TRUE(is_missing(corrected(2.0, {}, calibrator(Principle::volumetric), {}, dead).actual_l_min)) << error;
  }
}

// derived: a rotameter's flow goes with √(T / P), so relative to it with half of 1 / T and of -1 / P.
TEST(CorrectedReading, SaysHowItFollowsTheConditionsAndWhatWasLeftOut) {
  const CorrectedReading reading = corrected(2, {t_20_c, 100}, rotameter_for_20_c);
  EXPECT_FALSE(reading.is_left_alone);
  EXPECT_NEAR(reading.slopes.per_k, 0.5 / t_20_c, 1e-12);
  EXPECT_NEAR(reading.slopes.per_kpa, -0.5 / 100, 1e-12);
  EXPECT_EQ(reading.left_out, Correction::none);
  CorrectionPractice never;
  never.rotameter = RotameterCorrection::never;
  EXPECT_TRUE(corrected(2, {t_20_c, 100}, rotameter_for_20_c, never).is_left_alone);
  EXPECT_EQ(corrected(2, {t_20_c, 100}, rotameter_for_20_c, never).left_out, Correction::to_scale);
}

TEST(CorrectedReading, OfARotameterWithoutAScaleIsNotWithinFivePercentOfIt) {
  CorrectionPractice beyond;
  beyond.rotameter = RotameterCorrection::beyond_5_percent;
  const CorrectedReading reading = corrected(2, {t_20_c, 100}, calibrator(Principle::rotameter), beyond);
  EXPECT_EQ(reading.lack, Lack::scale_conditions);
  EXPECT_FALSE(reading.is_left_alone);
}

}  // namespace
}  // namespace driftwarden::corrected_reading_test

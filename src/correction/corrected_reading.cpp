// SPDX-License-Identifier: MIT
#include "driftwarden/correction/corrected_reading.hpp"

#include "driftwarden/correction/mass_meter.hpp"
#include "driftwarden/correction/orifice.hpp"
#include "driftwarden/correction/rotameter.hpp"

namespace driftwarden {

namespace {

using Lack = CorrectedReading::Lack;

// The conditions of a reading; each figure may be missing.
struct Surroundings {
  double temperature_k;
  double pressure_kpa;
  double humidity;

  Conditions conditions() const { return {Temperature(temperature_k), Pressure(pressure_kpa)}; }
};

struct PrincipleStep {
  double factor = missing;
  Lack lack = Lack::nothing;
  double humidity_effect = missing;
};

PrincipleStep lacking(Lack lack) { return {missing, lack, missing}; }

// Comparisons are written so that a missing figure fails them.
bool is_usable(double absolute) { return absolute > 0; }

Lack lack_of_conditions(const Surroundings& reading) {
  if (!is_usable(reading.temperature_k)) return Lack::temperature;
  if (!is_usable(reading.pressure_kpa)) return Lack::pressure;
  return Lack::nothing;
}

std::optional<Conditions> scale_conditions(const Instrument& calibrator) {
  if (!calibrator.scale_temperature || !is_usable(calibrator.scale_temperature->kelvin)) return std::nullopt;
  if (!calibrator.scale_pressure || !is_usable(calibrator.scale_pressure->value)) return std::nullopt;
  return Conditions{*calibrator.scale_temperature, *calibrator.scale_pressure};
}

PrincipleStep rotameter_step(const Surroundings& reading, const Instrument& calibrator, RotameterCorrection practice) {
  if (practice == RotameterCorrection::never) return {1};
  const Lack lack = lack_of_conditions(reading);
  if (lack != Lack::nothing) return lacking(lack);
  const std::optional<Conditions> scale = scale_conditions(calibrator);
  if (!scale) return lacking(Lack::scale_conditions);
  const bool is_left_alone =
      practice == RotameterCorrection::beyond_5_percent && !differs_by_more_than(*scale, reading.conditions(), 0.05);
  return {is_left_alone ? 1 : rotameter_factor(*scale, reading.conditions())};
}

PrincipleStep mass_step(const Surroundings& reading, const Instrument& calibrator) {
  const Lack lack = lack_of_conditions(reading);
  if (lack != Lack::nothing) return lacking(lack);
  const std::optional<Conditions> standard = scale_conditions(calibrator);
  if (!standard) return lacking(Lack::scale_conditions);
  return {mass_factor(*standard, reading.conditions())};
}

PrincipleStep orifice_step(const Surroundings& reading, const Instrument& calibrator,
                           std::optional<Temperature> orifice_scale) {
  if (!is_usable(reading.temperature_k)) return lacking(Lack::temperature);
  const std::optional<Temperature> scale = calibrator.scale_temperature ? calibrator.scale_temperature : orifice_scale;
  if (!scale || !is_usable(scale->kelvin)) return lacking(Lack::scale_conditions);
  return {orifice_factor(*scale, Temperature(reading.temperature_k))};
}

// The factor of a practised humidity correction, given the factor that is known anyway for the effect.
PrincipleStep practised_humidity(const Surroundings& reading, BubbleHumidity practice, BubbleHumidity known,
                                 double known_factor) {
  if (practice == BubbleHumidity::ambient && known != BubbleHumidity::ambient) return lacking(Lack::humidity);
  const double factor =
      practice == known ? known_factor : bubble_factor(practice, reading.conditions(), RelativeHumidity(0));
  if (is_missing(factor)) return lacking(Lack::pressure);
  return {factor};
}

PrincipleStep bubble_step(const Surroundings& reading, BubbleHumidity practice) {
  const Lack lack = lack_of_conditions(reading);
  if (lack != Lack::nothing) return practice == BubbleHumidity::none ? PrincipleStep{1} : lacking(lack);
  const bool has_humidity = reading.humidity >= 0;
  const BubbleHumidity known = has_humidity ? BubbleHumidity::ambient : BubbleHumidity::dry;
  const double known_factor =
      bubble_factor(known, reading.conditions(), RelativeHumidity(has_humidity ? reading.humidity : 0));
  PrincipleStep step = practised_humidity(reading, practice, known, known_factor);
  step.humidity_effect = known_factor - 1;
  return step;
}

PrincipleStep principle_step(const Surroundings& reading, const Instrument& calibrator,
                             std::optional<Temperature> orifice_scale, CorrectionPractice practice) {
  switch (calibrator.principle) {
    case Principle::volumetric:
      return {1};
    case Principle::bubble:
      return bubble_step(reading, practice.bubble_humidity);
    case Principle::rotameter:
      return rotameter_step(reading, calibrator, practice.rotameter);
    case Principle::mass:
      return mass_step(reading, calibrator);
    case Principle::orifice:
      return orifice_step(reading, calibrator, orifice_scale);
    case Principle::none:
      break;
  }
  return lacking(Lack::scale_conditions);
}

double without_error(double indicated_l_min, double error) {
  return error > -1 ? indicated_l_min / (1 + error) : missing;
}

}  // namespace

CorrectedReading correct_reading(double indicated_l_min, double temperature_k, double pressure_kpa, double humidity,
                                 const Instrument& calibrator, std::span<const ErrorPoint> curve,
                                 std::optional<Temperature> orifice_scale, CorrectionPractice practice) {
  const ErrorAt certificate = error_at(curve, indicated_l_min);
  const PrincipleStep step =
      principle_step({temperature_k, pressure_kpa, humidity}, calibrator, orifice_scale, practice);
  CorrectedReading reading;
  reading.indicated_l_min = indicated_l_min;
  reading.certificate_error = certificate.error;
  reading.is_outside_certificate = certificate.is_outside_the_points;
  reading.after_certificate_l_min = without_error(indicated_l_min, certificate.error);
  reading.principle_factor = step.factor;
  reading.actual_l_min = reading.after_certificate_l_min * step.factor;
  reading.humidity_effect = step.humidity_effect;
  reading.lack = step.lack;
  return reading;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "correction/corrected_reading.hpp"

namespace driftwarden {

namespace {

double without_error(double indicated_l_min, double error) {
  return error > -1 ? indicated_l_min / (1 + error) : missing;
}

}  // namespace

ReadingFactor reading_factor(Principle principle, const FactorInputs& inputs) {
  const PrincipleKind& kind = kind_of(principle);
  ReadingFactor factor;
  factor.step = kind.step(inputs);
  if (factor.step.lack != FactorLack::nothing) return factor;
  factor.slopes = kind.slopes(inputs);
  factor.left_out = kind.left_out(inputs);
  return factor;
}

CorrectedReading correct_reading(double indicated_l_min, std::span<const ErrorPoint> curve,
                                 const ReadingFactor& factor) {
  const ErrorAt certificate = error_at(curve, indicated_l_min);
  CorrectedReading reading;
  reading.indicated_l_min = indicated_l_min;
  reading.certificate_error = certificate.error;
  reading.is_outside_certificate = certificate.is_outside_the_points;
  reading.after_certificate_l_min = without_error(indicated_l_min, certificate.error);
  reading.principle_factor = factor.step.factor;
  reading.is_left_alone = factor.step.is_left_alone;
  reading.actual_l_min = reading.after_certificate_l_min * factor.step.factor;
  reading.humidity_effect = factor.step.humidity_effect;
  reading.lack = factor.step.lack;
  reading.slopes = factor.slopes;
  reading.left_out = factor.left_out;
  return reading;
}

CorrectedReading correct_reading(double indicated_l_min, Principle principle, std::span<const ErrorPoint> curve,
                                 const FactorInputs& inputs) {
  return correct_reading(indicated_l_min, curve, reading_factor(principle, inputs));
}

}  // namespace driftwarden

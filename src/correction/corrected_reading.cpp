// SPDX-License-Identifier: MIT
#include "correction/corrected_reading.hpp"

namespace driftwarden {

namespace {

double without_error(double indicated_l_min, double error) {
  return error > -1 ? indicated_l_min / (1 + error) : missing;
}

}  // namespace

CorrectedReading corrected_flow(double indicated_l_min, Principle principle, std::span<const ErrorPoint> curve,
                                const FactorInputs& inputs) {
  const ErrorAt certificate = error_at(curve, indicated_l_min);
  const PrincipleStep step = kind_of(principle).step(inputs);
  CorrectedReading reading;
  reading.indicated_l_min = indicated_l_min;
  reading.certificate_error = certificate.error;
  reading.is_outside_certificate = certificate.is_outside_the_points;
  reading.after_certificate_l_min = without_error(indicated_l_min, certificate.error);
  reading.principle_factor = step.factor;
  reading.is_left_alone = step.is_left_alone;
  reading.actual_l_min = reading.after_certificate_l_min * step.factor;
  reading.humidity_effect = step.humidity_effect;
  reading.lack = step.lack;
  return reading;
}

CorrectedReading correct_reading(double indicated_l_min, Principle principle, std::span<const ErrorPoint> curve,
                                 const FactorInputs& inputs) {
  CorrectedReading reading = corrected_flow(indicated_l_min, principle, curve, inputs);
  if (reading.lack != FactorLack::nothing) return reading;
  const PrincipleKind& kind = kind_of(principle);
  reading.slopes = kind.slopes(inputs);
  reading.left_out = kind.left_out(inputs);
  return reading;
}

}  // namespace driftwarden

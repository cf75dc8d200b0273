// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "correction/certificate_error.hpp"
#include "correction/principle.hpp"
#include "quantity/quantity.hpp"
#include "record/instrument.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// Every step of one reading, kept for the explanation.
struct CorrectedReading {
  using Lack = FactorLack;

  double indicated_l_min = missing;
  double certificate_error = 0;
  bool is_outside_certificate = false;
  double after_certificate_l_min = missing;
  double principle_factor = 1;    // NaN where something lacks
  bool is_left_alone = false;     // the factor is 1 by principle or practice, and by no formula
  double actual_l_min = missing;  // NaN where something lacks
  // Bubble meters: the relative change that the correction to ambient humidity (without a humidity: to dry air) makes
  // or would make, whether practised or not; NaN for others and where conditions lack.
  double humidity_effect = missing;
  Lack lack = Lack::nothing;
  Slopes slopes;  // how it follows the conditions, and which correction was left out
  Correction left_out = Correction::none;
};

// From the indication of a calibrator to the actual flow at the conditions of the reading.
//
//   Q_act = Q_ind / (1 + e) · f
//
//   Q_ind, Q_act   volume flow, L/min      e  relative error by the certificate in force (error_at), ratio
//   f   by the calibrator's principle: rotameter_factor, mass_factor, orifice_factor, bubble_factor; volumetric 1
//   Source   the formulas named; that the certificate comes first follows from its points being on the calibrator's
//            own basis
//   Valid    where each of the formulas is; 1 + e above zero (else NaN)
//   Example  rotameter drawn for 20 °C, 101.325 kPa, error 1 %, showing 2.02 L/min at 5 °C, 84.5 kPa
//            ->  2.000 after the certificate, 2.1333 L/min actual
//
// A figure that is NaN is missing. Volumetric and bubble meters (humidity: none) need no conditions, nor does a
// rotameter that is never corrected. Of several lacks the first is told, conditions of the reading before those of the
// scale.
CorrectedReading correct_reading(double indicated_l_min, Principle principle, std::span<const ErrorPoint> curve,
                                 const FactorInputs& inputs);

// What the conditions make of a reading by its calibrator's principle: one for all that were read under the same.
struct ReadingFactor {
  PrincipleStep step;
  Slopes slopes;
  Correction left_out = Correction::none;
};
ReadingFactor reading_factor(Principle principle, const FactorInputs& inputs);
CorrectedReading correct_reading(double indicated_l_min, std::span<const ErrorPoint> curve,
                                 const ReadingFactor& factor);

}  // namespace driftwarden

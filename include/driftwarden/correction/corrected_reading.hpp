// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "driftwarden/correction/bubble.hpp"
#include "driftwarden/correction/certificate_error.hpp"
#include "driftwarden/quantity/quantity.hpp"
#include "driftwarden/record/instrument.hpp"
#include "driftwarden/record/sample.hpp"

namespace driftwarden {

// When the reading of a rotameter is corrected for temperature and pressure.
enum class RotameterCorrection : std::uint8_t { always, beyond_5_percent, never };

struct CorrectionPractice {
  BubbleHumidity bubble_humidity = BubbleHumidity::none;
  RotameterCorrection rotameter = RotameterCorrection::always;
};

// Every step of one reading, kept for the explanation.
struct CorrectedReading {
  // What the step from indicated to actual flow would have needed and was not given (or was not above zero).
  // scale_conditions also stands for an instrument whose principle isn't known; pressure also for one that is not above
  // the vapour pressure.
  enum class Lack : std::uint8_t { nothing, temperature, pressure, scale_conditions, humidity };

  double indicated_l_min = missing;
  double certificate_error = 0;
  bool is_outside_certificate = false;
  double after_certificate_l_min = missing;
  double principle_factor = 1;    // NaN where something lacks
  double actual_l_min = missing;  // NaN where something lacks
  // Bubble meters: the relative change that the correction to ambient humidity (without a humidity: to dry air) makes
  // or would make, whether practised or not; NaN for others and where conditions lack.
  double humidity_effect = missing;
  Lack lack = Lack::nothing;
};

// From the indication of a calibrator to the actual flow at the conditions of the reading.
//
//   Q_act = Q_ind / (1 + e) · f
//
//   Q_ind, Q_act   volume flow, L/min      e  relative error by the certificate in force (error_at), ratio
//   f   by the calibrator's principle: rotameter_factor, mass_factor, orifice_factor, bubble_factor; volumetric 1
//   Source   the formulas named; that the certificate comes first follows from its points being on the calibrator's own
//   basis Valid    where each of the formulas is; 1 + e above zero (else NaN) Example  rotameter drawn for 20 °C,
//   101.325 kPa, error 1 %, showing 2.02 L/min at 5 °C, 84.5 kPa
//            ->  2.000 after the certificate, 2.1333 L/min actual
//
// A figure that is NaN is missing. Volumetric and bubble meters (humidity: none) need no conditions, nor does a
// rotameter that is never corrected. `orifice_scale` is the temperature an orifice was calibrated at, for one whose own
// row in the instruments has none. Of several lacks the first is told, conditions of the reading before those of the
// scale.
CorrectedReading correct_reading(double indicated_l_min, double temperature_k, double pressure_kpa, double humidity,
                                 const Instrument& calibrator, std::span<const ErrorPoint> curve,
                                 std::optional<Temperature> orifice_scale, CorrectionPractice practice);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "correction/certificate_error.hpp"
#include "correction/corrected_reading.hpp"

namespace driftwarden {

// What a calibrator is to show.
struct ExpectedIndication {
  double indicated_l_min = missing;  // NaN where something lacks, or where no indication, or more than one, gives it
  FactorLack lack = FactorLack::nothing;  // as for the correction
  bool is_outside_certificate = false;    // beyond the points, where the nearest one's error is taken
};

// From the actual flow back to the indication that is corrected to it: the inverse of correct_reading.
//
//   Q_ind = q' · (1 + e(Q_ind)),   q' = Q_act / f
//   between two points, where e = a + b · Q_ind:   Q_ind = q' · (1 + a) / (1 − b · q')
//
//   Q_ind, Q_act   volume flow, L/min      f   by the calibrator's principle, at the conditions of the reading
//   e   relative error by the certificate in force, ratio; linear between its points and flat outside them (error_at)
//   a, b   of the line through the two points, ratio and 1/(L/min)
//   Source   correct_reading solved for the indication, piece by piece of the error curve
//   Valid    where correct_reading is, and where just one indication gives the flow: a curve so steep that two do, or
//            none, gives NaN
//   Example  rotameter drawn for 20 °C, 101.325 kPa, error 1 %, 2.1333 L/min at 5 °C, 84.5 kPa  ->  shows 2.02 L/min
ExpectedIndication expected_indication(double actual_l_min, std::span<const ErrorPoint> curve,
                                       const ReadingFactor& factor);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "record/instrument.hpp"

namespace driftwarden {

// A calibrator's relative error at one indication; 0.01: it shows 1 % too much.
struct ErrorPoint {
  double indication_l_min = 0;
  double error = 0;
};

struct ErrorAt {
  double error = 0;
  bool is_outside_the_points = false;  // below the lowest or above the highest point: the nearest one's error is taken
};

// Relative error at each point of a certificate, sorted by indication, from the as-left indication, or the as-found one
// of a point that has no as-left (nothing was adjusted).
//
//   e = (q − q_ref) / q_ref
//
//   e   relative error, ratio      q  indication, L/min      q_ref  true flow at the point, L/min
//   Source   the definition of a relative error of indication
//   Valid    q_ref above zero. Points without indication, without a true flow above zero, or read before an adjustment
//            only, are left out; points of one indication become one, with the mean of their errors
//   Example  shows 2.02 L/min where 2.00 L/min flow  ->  e = 0.01
std::vector<ErrorPoint> error_curve(const Certificate& certificate);

// Standard uncertainty of a certificate's point, L/min: U / k, k counting as 2 where the certificate gives none (nearly
// all state U so: common practice); NaN where it states no U.
double standard_uncertainty_l_min(const Certificate& certificate, const CertificatePoint& point);

// The same from the as-found indications only: how the instrument stood before anything was done to it.
std::vector<ErrorPoint> as_found_curve(const Certificate& certificate);

// Relative error at an indication: linear in the indication between the points, flat outside them.
//
//   e = e_1 + (e_2 − e_1) · (q − q_1) / (q_2 − q_1)
//
//   e   relative error, ratio      q  indication, L/min      1, 2  the points on both sides
//   Source   linear interpolation; this project's pinned choice
//   Valid    a curve sorted by indication, each indication once, as error_curve gives it; an empty one has error 0
//   Example  e = 0.01 at 1.0 L/min, 0.03 at 2.0 L/min  ->  e = 0.02 at 1.5 L/min
ErrorAt error_at(std::span<const ErrorPoint> curve, double indication_l_min);

// By how many parts the corrected indication q' = q / (1 + e(q)) changes where the indication changes by one part.
//
//   (dq'/q') / (dq/q) = 1 − q e' / (1 + e)
//
//   q        indication, L/min      e, e'  relative error, and its slope, 1/(L/min)
//   Source   the derivative of the correction by the curve that error_at draws
//   Valid    as error_at; on a point the mean of the slopes on both sides; outside the points the slope is 0
//   Example  e = 0.01 at 1.0 L/min, 0.03 at 2.0 L/min  ->  1 − 1.5 · 0.02 / 1.02 = 0.970588 at 1.5 L/min
double step_through(std::span<const ErrorPoint> curve, double indication_l_min);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include "statistics/bounds.hpp"

namespace driftwarden {

// How an interval answers to the last error found. The factors are proposals of this project: the guides name the
// method, not its step sizes. Intervals and their limits are in one unit of time of the caller's choice.
struct StaircaseDesign {
  double extend_up_to = 0.8;  // share of the permissible error up to which the interval grows
  double extend_factor = 1.25;
  double reduce_factor = 0.6;
  double shortest = 0;
  double longest = no_figure;  // NaN: no limit
};

enum class IntervalStep { extend, keep, reduce };

struct IntervalAdvice {
  IntervalStep step = IntervalStep::keep;
  double interval = no_figure;
};

// Automatic adjustment of a calibration interval.
//
//   |e| ≤ s·E: I·f_extend      |e| ≤ E: I      |e| > E: I·f_reduce;   kept within shortest and longest
//
//   e, E     error found and its permissible size, one unit      I  interval      s  share
//   Source   ILAC-G24 / OIML D 10, method 1; share 0.8 as its example; factors: this project
//   Valid    E > 0; an error as found, before adjustment. On a boundary the milder answer is taken.
//   Example  12 months, error 0.3 % of 1 %  ->  15 months; error 1.2 %  ->  7.2 months
IntervalAdvice staircase(double interval, double error_found, double permissible_error, const StaircaseDesign& design);

// Days until an interval of hours in use is used up, at the pace so far.
//
//   d = (H - h) · days / h
//
//   H, h     permitted hours and hours used since the calibration      days  days since the calibration
//   Source   ILAC-G24 / OIML D 10, method 3; the forecast is arithmetic
//   Valid    the use goes on as before; not above 0 when it is used up; infinite without use so far
//   Example  400 h, 310 h used in 150 days  ->  43.5 days
double days_until_used_up(double permitted_hours, double used_hours, double days_so_far);

// Agreement of two results.
//
//   E_n = (x - x_ref) / √(U² + U_ref²)
//
//   U        expanded uncertainties, k = 2      x_ref  value of the check standard
//   Source   ISO 13528, ISO/IEC 17043; as check between calibrations ILAC-G24 / OIML D 10, method 4
//   Valid    independent results; |E_n| ≤ 1 is agreement
//   Example  2.031 ± 0.020 against 2.010 ± 0.015  ->  0.84
double e_n(double result, double expanded_uncertainty, double reference, double reference_expanded_uncertainty);

}  // namespace driftwarden

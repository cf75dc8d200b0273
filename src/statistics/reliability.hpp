// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>

#include "statistics/bounds.hpp"

namespace driftwarden {

// What an instrument was found to be at the end of an interval.
struct IntervalResult {
  double interval = no_figure;
  bool is_in_tolerance = true;
};

// Rate at which instruments go out of tolerance, found at intervals that may differ: the most likely one.
//
//   Σ_out I / (e^(λI) - 1) = Σ_in I
//
//   I        interval of each result, those out of tolerance at its end on the left
//   Source   derived: ln L = Σ_in -λI + Σ_out ln(1 - e^(-λI)) is largest; with one interval it is -ln(x/n)/I, x of n in
//   tolerance.
//            Failures over time, X/T, is lower, for it takes them to have happened at the end of their intervals
//   Valid    a rate that does not depend on age; I > 0, NaN otherwise and for no result; 0 without a failure, infinite
//            where all failed. The root lies between X/T and X over the time of those in tolerance.
//   Example  invented, 150 results at 3 to 24 months (see the test)  ->  0.02101251 per month
double failure_rate_of(std::span<const IntervalResult> results);

// Interval at whose end a share R of instruments is still in tolerance: -ln R / λ. Infinite at rate 0.
// Example: λ 0.0125 per month, R 0.95 -> 4.1035 months.
double interval_for_target(double failure_rate, double target);

}  // namespace driftwarden

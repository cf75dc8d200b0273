// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>

#include "statistics/bounds.hpp"

namespace driftwarden {

// Rate at which instruments go out of tolerance, all found at one interval.
//
//   λ = -ln(x/n) / I
//
//   x, n     in tolerance, and in all      I  interval
//   Source   exponential reliability R(t) = e^(-λt); common practice
//   Valid    a rate that does not depend on age; 0 < x ≤ n; infinite for x = 0
//   Example  34 of 40 at 12 months  ->  0.013543 per month
double failure_rate_at_interval(std::size_t in_tolerance, std::size_t n, double interval);

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
//   Source   derived: ln L = Σ_in -λI + Σ_out ln(1 - e^(-λI)) is largest; with one interval the -ln(x/n)/I above.
//            Failures over time, X/T, is lower, for it takes them to have happened at the end of their intervals
//   Valid    a rate that does not depend on age; I > 0, NaN otherwise and for no result; 0 without a failure, infinite
//            where all failed. The root lies between X/T and X over the time of those in tolerance.
//   Example  invented, 150 results at 3 to 24 months (see the test)  ->  0.02101251 per month
double failure_rate_of(std::span<const IntervalResult> results);

// Upper confidence bound of a failure rate.
//
//   λ_u = χ²_{p, 2(X + 1)} / (2T)
//
//   X, T     failures, and time under observation in all      p  confidence
//   Source   NIST/SEMATECH e-Handbook 8.4.5.1
//   Valid    a rate that does not depend on age; T > 0; the moments of failure known, where the estimate is X/T
//   Example  6 in 480 months at 0.95  ->  0.024672 per month
double failure_rate_upper_bound(std::size_t failures, double observed_time, double confidence);

// Interval at whose end a share R of instruments is still in tolerance: -ln R / λ. Infinite at rate 0.
// Example: λ 0.0125 per month, R 0.95 -> 4.1035 months.
double interval_for_target(double failure_rate, double target);

// How many results without a failure show a reliability: the smallest n with R^n ≤ 1 - confidence.
// Example: 0.95 confidence of 0.85, 0.90, 0.95 -> 19, 29, 59. 0 for a reliability or confidence not inside 0 to 1.
std::size_t failure_free_results_needed(double reliability, double confidence);

enum class ReliabilityAgainstTarget { below, compatible, above };

struct IntervalTest {
  Bounds observed;  // confidence limits of the share in tolerance
  ReliabilityAgainstTarget outcome = ReliabilityAgainstTarget::compatible;
};

// Does the share found in tolerance at the interval in force speak against a target? Clopper-Pearson limits; the
// interval is to change only if the target lies outside. Example: 34 of 40 at 0.90 -> below 0.95, compatible with 0.90.
IntervalTest test_interval(std::size_t in_tolerance, std::size_t n, double target, double confidence);

}  // namespace driftwarden

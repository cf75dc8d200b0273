// SPDX-License-Identifier: MIT
#pragma once

#include "statistics/bounds.hpp"

namespace driftwarden {

// What is to be measured: true values that are normally distributed, each measured with a standard uncertainty.
struct MeasuredPopulation {
  double mean = 0;
  double s = 0;
  double u = 0;
};

// What becomes of one item in the mean; each a probability, and of both things together.
struct GlobalRisk {
  double beyond = no_figure;           // the true value lies outside the tolerance
  double accepted = no_figure;         // the measured one lies inside what is accepted
  double accepted_beyond = no_figure;  // both: the consumer's risk R_C
  double rejected_within = no_figure;  // neither: the producer's risk R_P
};

// Global risk of a decision.
//
//   R_C = ∫_outside T g₀(η) P(Y in A | η) dη      R_P = ∫_inside T g₀(η) (1 - P(Y in A | η)) dη
//   X ~ N(mean, s²)      Y | η ~ N(η, u²): X and Y are bivariate normal, ρ = s/√(s² + u²)
//
//   T, A     tolerance and acceptance interval, either end of which may be infinite; A inside or outside T
//   Source   JCGM 106:2012 clause 9
//   Valid    s, u ≥ 0; NaN otherwise. Where nothing lies between the ends of A, nothing is accepted
//   Example  1500 Ω ± 0.2 Ω, s 0.12, u 0.04, A ± 0.18: R_C 0.0099, R_P 0.0690 (JCGM 106 prints 0.01 and 0.07)
GlobalRisk global_risk(const MeasuredPopulation& of, const Bounds& tolerance, const Bounds& acceptance);

}  // namespace driftwarden

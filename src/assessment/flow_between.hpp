// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "assessment/budget.hpp"

namespace driftwarden {

// Below so many earlier uses of a pump its own drift says too little: the project's choice.
inline constexpr std::uint32_t enough_uses = 5;

// How well the mean flow is known between the looks at it, L/min.
//
//   u² = Σ_k (τ_k · max(|q_k − q_(k−1)| / 2, a √τ_k))² / 3      a = q · s / 2, or q · (what is stated)
//
//   τ_k  share of span k in the time; the only one without a line through field sets     q_k  flow at its end, L/min
//   s    of the pump's drift over its earlier uses (PumpDrifts), where five or more tell; what is stated: [uncertainty]
//        flow_between     q  the mean flow
//   Source   the span: a rectangle between its ends, JCGM 100 (GUM) 4.3.7. a: the mean of a path that walks at random
//            and is held at both ends strays by s / √12 = (s / 2) / √3, and by √τ of that over a share τ (the variance
//            of a Brownian bridge's mean). Degrees of freedom: n uses for the spans in which a leads (G.4.1)
//   Valid    twice as much where the flow is not the mean of its ends (lower, pre); its coverage: docs/uncertainty.md
//   Example  2.0 L/min before and after, s = 2 % of ten uses: 2 · 0.01 / √3 = 0.01155 L/min, 10 degrees of freedom
struct KnownBetween {
  double u = missing;
  double dof = missing;
  FlowBetween told;
};
KnownBetween known_between(const AssessmentBasis& basis, const SampleAssessment& figures);

// How far the mean along the line may be off because nobody says when the pump was paused, L/min: all of it may have
// been in the span whose mean flow is farthest from the whole's.
//
//   h = max |(q_(k−1) + q_k) / 2 − q| · paused / minutes
//
//   Source   derived: without the pause the span's share of the time is less by so much
//   Valid    a line through field sets; 0 without a pause
//   Example  2.0, 1.8, 1.8 L/min at 0, 240, 480 min, 48 min paused: |1.9 − 1.85| · 48 / 432 = 0.00556 L/min
double pauses_half_width(const SampleAssessment& figures);

}  // namespace driftwarden

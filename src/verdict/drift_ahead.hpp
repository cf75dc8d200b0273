// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/pump_drifts.hpp"
#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// How far a pump's flow may move over one more use, where it goes on as it did.
//
//   d = t · s          P = 2 (1 − F(L / s))
//
//   s   of its drifts over n earlier uses (DriftSpread)     t  Student's t for 95 % between both sides, n degrees
//   L   the drift that the narrowest rule allows that voids beyond it     F  Student's t distribution, n degrees
//   Source   a further value of a normal population about 0 whose variance is told by n squares: d / s is Student's t
//            with n degrees of freedom, by its definition (JCGM 100 (GUM) G.3.2)
//   Valid    five uses and more (the project's choice); uses that are alike, their drifts normal about 0
//   Example  s = 2 % of 10 uses: d = 2.228 · 2 % = 4.456 %; L = 5 %: P = 0.0314
struct DriftAhead {
  DriftSpread earlier;
  double within = missing;        // d, ratio
  double limit = missing;         // L, ratio; missing where no rule voids for drift
  double beyond_limit = missing;  // P
  const Rule* rule = nullptr;     // whose limit it is
};

// By what was read before a moment.
DriftAhead drift_ahead(const Screening& screening, const SampleAhead& sample, const RulesAhead& rules, Moment before);

}  // namespace driftwarden

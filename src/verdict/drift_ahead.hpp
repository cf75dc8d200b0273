// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/pump_drifts.hpp"
#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// How far a pump's flow may move over one more use, where it goes on as it did.
//
//   d = t · s          P = F(a / s) + F(−b / s)
//
//   s   of its drifts over n earlier uses (DriftSpread)     t  Student's t for 95 % between both sides, n degrees
//   a, b   the least and the most drift that a rule allows that voids beyond them; F  Student's t distribution, n
//          degrees, which is symmetric: F(−x) = 1 − F(x). Of several such rules that of the largest P counts
//   Source   a further value of a normal population about 0 whose variance is told by n squares: d / s is Student's t
//            with n degrees of freedom, by its definition (JCGM 100 (GUM) G.3.2)
//   Valid    five uses and more (the project's choice); uses that are alike, their drifts normal about 0
//   Example  s = 2 % of 10 uses: d = 2.228 · 2 % = 4.456 %; −5 % to 5 %: P = 0.0314; −2 % to 10 %: 0.1707
struct DriftAhead {
  DriftSpread earlier;
  double within = missing;         // d, ratio; missing below five uses, and then all below are
  double limit_low = missing;      // a, ratio; missing where the rule has no such limit
  double limit_high = missing;     // b
  double beyond_limits = missing;  // P; missing where no rule voids for drift
  const Rule* rule = nullptr;      // whose limits they are
};

// By what was read before a moment.
DriftAhead drift_ahead(const Screening& screening, const SampleAhead& sample, const RulesAhead& rules, Moment before);

}  // namespace driftwarden

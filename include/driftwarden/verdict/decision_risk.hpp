// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "driftwarden/assessment/budget.hpp"
#include "driftwarden/rule/judgement.hpp"
#include "driftwarden/rule/measure.hpp"
#include "driftwarden/rule/rule.hpp"

namespace driftwarden {

// How well the figure is known that a rule compares: standard and expanded uncertainty in its own inside unit (of the
// absolute difference where the limit is one). Missing where no budget is about the measure, or its budget can't state
// it.
struct KnownTo {
  double u = missing;
  double expanded = missing;
  bool has_budget = false;
};
KnownTo known_to(const Rule& rule, const SampleAssessment& figures, const Budget& budget);

// Probability that the true value lies beyond the limit, the figure being y with standard uncertainty u.
//
//   P = Φ((low − y) / u) + 1 − Φ((high − y) / u)
//
//   y, low, high, u  inside unit of the figure     Φ  normal distribution
//   Source   JCGM 106:2012 clause 7 (specific risk)
//   Valid    a normal density; with very few readings the tails are heavier than this says
//   Example  drift 4.6 %, u 0.5 %, limit ±5 %: 0.212
double probability_beyond(const Limit& limit, double figure, double u);

// A limit narrowed by w = guard · U: what is met, but lies in the narrowed part, is qualified; and so is what is met
// where U can't be stated, since nobody knows then how far to narrow.
//
//   accept if the margin to the nearer end ≥ w
//
//   Source   ILAC-G8:09/2019, guard bands; guard 1 keeps the probability of a wrong acceptance below 2.5 %
//   Valid    guard ≥ 0; 0 is simple acceptance
//   Example  limit ±5 %, U 1.0 %, guard 1: 4.2 % is qualified, 4.0 % is met
Outcome guarded(const Judgement& judgement, double guard, const KnownTo& known);

// The decision rule in force and its risk, in a sentence for every output.
std::string decision_rule_text(double guard);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "assessment/budget.hpp"
#include "rule/judgement.hpp"
#include "rule/measure.hpp"
#include "rule/rule.hpp"
#include "verdict/finding.hpp"
#include "verdict/measured.hpp"

namespace driftwarden {

class Screening;

// Probability that the true value lies beyond the limit, given this reading and no other knowledge: the figure being y
// with standard uncertainty u of ν degrees of freedom.
//
//   P = F((low − y) / u) + 1 − F((high − y) / u)
//
//   y, low, high, u  inside unit of the figure     F  Student's t distribution, ν cut down to a whole number
//   Source   JCGM 106:2012 clause 7 (specific risk), there for a normal density; Student's t where u was estimated:
//            JCGM 100 (GUM) G.3
//   Valid    no knowledge of the true value from elsewhere; both ends of a limit count
//   Example  drift 4.6 %, u 0.5 %, limit ±5 %: 0.212; at two u from one end and ν = 4: 0.058, where ν = ∞ has 0.023
double probability_beyond(const Limit& limit, double figure, const KnownTo& known);

// Whether the figure lies so near a limit that the probability may reach 2.5 %. From twice U on it can't, whatever the
// degrees of freedom (t_0.9875 / t_0.975 is 1.14 for ν = ∞ and 2.003 for ν = 1): then it needs no working out.
// A wider guard band asks for it, too.
bool is_within_reach(const Judgement& judgement, const KnownTo& known, double guard);

// A limit narrowed by w = guard · U: what is met, but lies in the narrowed part, is qualified (noted, where the rule
// only notes); and so is what is met where U can't be stated, since nobody knows then how far to narrow.
//
//   accept if the margin to the nearer end ≥ w
//
//   Source   ILAC-G8:09/2019, guard bands
//   Valid    guard ≥ 0; 0 is simple acceptance
//   Example  limit ±5 %, U 1.0 %, guard 1: 4.2 % is qualified, 4.0 % is met
Outcome guarded(const Judgement& judgement, double guard, const KnownTo& known, Otherwise otherwise);

// Puts to a finding how well its figure is known, how likely the true value lies beyond the limit (where that may be
// told, or `is_told_always`), and what the guard band makes of it.
void weigh(Finding& finding, const Rule& rule, const KnownTo& known, double guard, bool is_told_always);

// The largest probability that what a guard band lets pass lies beyond one end of its limit.
//
//   P = max over ν of 1 − F_ν(guard · t_0.975(ν))
//
//   F_ν, t   Student's t distribution of ν degrees of freedom, and its 97.5 % point
//   Source   JCGM 106:2012 clause 8 (guard bands) with the probability of clause 7
//   Valid    ν from 1 to ∞: the largest is at ν = ∞ for a guard below 1, at ν = 1 above it, and 2.5 % for all ν at 1
//   Example  guard 1: 2.5 %; 0.83: 5.2 %; 1.5: 1.7 %, where the normal distribution alone has 0.16 %
double worst_risk_at_one_end(double guard);

// Measures that rules in force hold to a limit though no uncertainty of them is stated: "pre.rsd of a sample".
std::vector<std::string> unguarded(const Screening& screening);

// The decision rule in force and its risk, worked out for the worst of its rules; one or two sentences for every
// output.
std::string decision_rule_text(const Screening& screening);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "verdict/drift_ahead.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/flow_between.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {
namespace {

// How far either side a rule lets the drift go, ratio; missing where it has no such limit.
double allowed(const Rule& rule, double flow_l_min) {
  const Limit& limit = rule.limit;
  const double own = limit.is_absolute ? limit.high / flow_l_min : limit.high;
  if (!has_alternative(limit)) return own;
  return std::fmax(own, limit.is_absolute ? limit.or_within : limit.or_within / flow_l_min);
}

}  // namespace

DriftAhead drift_ahead(const Screening& screening, const SampleAhead& sample, const RulesAhead& rules, Moment before) {
  DriftAhead ahead;
  for (const Rule* rule : rules.drift) {
    const double limit = allowed(*rule, sample.nominal_l_min);
    if (rule->otherwise != Otherwise::void_ || !std::isfinite(limit)) continue;
    if (ahead.rule != nullptr && !(limit < ahead.limit)) continue;
    ahead.rule = rule;
    ahead.limit = limit;
  }
  ahead.earlier = screening.basis().pump_drifts.before(sample.pump, before);
  if (ahead.earlier.uses < enough_uses) return ahead;
  ahead.within = coverage_factor(budget_coverage, ahead.earlier.uses) * ahead.earlier.s;
  if (ahead.rule != nullptr)
    ahead.beyond_limit = student_t_two_sided_p(ahead.limit / ahead.earlier.s, ahead.earlier.uses);
  return ahead;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "verdict/drift_ahead.hpp"

#include <cmath>

#include "assessment/flow_between.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {
namespace {

// Between which drifts a rule is kept, ratio; an end that is not there is infinite.
struct Allowed {
  double low;
  double high;
};

Allowed allowed(const Rule& rule, double flow_l_min) {
  const Limit& limit = rule.limit;
  const double unit = limit.is_absolute ? flow_l_min : 1;
  const Allowed own{limit.low / unit, limit.high / unit};
  if (!has_alternative(limit)) return own;
  const double other = limit.is_absolute ? limit.or_within : limit.or_within / flow_l_min;
  return {std::fmin(own.low, -other), std::fmax(own.high, other)};
}

// The probability of a drift below -x, which is that of one above x.
double tail(double x, const DriftSpread& earlier) {
  if (std::isinf(x)) return 0;
  if (earlier.s == 0) return x < 0 ? 1 : 0;
  return student_t_cdf(-x / earlier.s, earlier.uses);
}

double if_finite(double limit) { return std::isfinite(limit) ? limit : missing; }

}  // namespace

DriftAhead drift_ahead(const Screening& screening, const SampleAhead& sample, const RulesAhead& rules, Moment before) {
  DriftAhead ahead;
  ahead.earlier = screening.basis().pump_drifts.before(sample.pump, before);
  if (ahead.earlier.uses < enough_uses) return ahead;
  ahead.within = coverage_factor(budget_coverage, ahead.earlier.uses) * ahead.earlier.s;
  for (const Rule* rule : rules.drift) {
    const Allowed limits = allowed(*rule, sample.nominal_l_min);
    if (rule->otherwise != Otherwise::void_ || std::isnan(limits.low) || std::isnan(limits.high)) continue;
    const double beyond = tail(-limits.low, ahead.earlier) + tail(limits.high, ahead.earlier);
    if (ahead.rule != nullptr && !(beyond > ahead.beyond_limits)) continue;
    ahead.rule = rule;
    ahead.limit_low = if_finite(limits.low);
    ahead.limit_high = if_finite(limits.high);
    ahead.beyond_limits = beyond;
  }
  return ahead;
}

}  // namespace driftwarden

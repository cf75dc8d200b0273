// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/decision_risk.hpp"

#include <algorithm>
#include <cmath>

#include "driftwarden/assessment/drift.hpp"
#include "driftwarden/quantity/limit.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/statistics/normal_distribution.hpp"
#include "driftwarden/verdict/measured.hpp"

namespace driftwarden {
namespace {

KnownTo known(const FigureUncertainty& of, double scale = 1) {
  return {of.u * std::abs(scale), of.expanded * std::abs(scale), true};
}

// A drift as the rule takes it: a change in L/min, or relative to the base of its choice.
FigureUncertainty of_drift(const Rule& rule, const SampleAssessment& f, const Budget& budget) {
  if (rule.limit.is_absolute) return uncertainty_of_change(budget, {-1, 1});
  if (rule.base == Base::by_practice) return budget.about(BudgetFigure::drift);
  return uncertainty_of_change(budget,
                               drift_weights(f.pre_l_min, f.post_l_min, drift_base_of(rule.base), f.nominal_l_min));
}

}  // namespace

KnownTo known_to(const Rule& rule, const SampleAssessment& f, const Budget& budget) {
  if (rule.of != Subject::sample) return {};
  switch (static_cast<SampleMeasure>(rule.measure)) {
    case SampleMeasure::drift:
      return known(of_drift(rule, f, budget));
    case SampleMeasure::flow:
      return known(budget.about(BudgetFigure::flow));
    case SampleMeasure::flow_deviation: {
      const bool is_of_nominal = rule.base == Base::by_practice;
      const double base = is_of_nominal
                              ? f.nominal_l_min
                              : base_flow(f.pre_l_min, f.post_l_min, drift_base_of(rule.base), f.nominal_l_min);
      return known(budget.about(BudgetFigure::flow), rule.limit.is_absolute ? 1 : 1 / base);
    }
    case SampleMeasure::volume:
      return known(budget.about(BudgetFigure::volume));
    case SampleMeasure::volume_reference:
      return known(budget.about(BudgetFigure::volume_reference));
    default:
      return {};
  }
}

double probability_beyond(const Limit& limit, double figure, double u) {
  if (!(u > 0) || is_missing(figure)) return missing;
  double beyond = 0;
  if (std::isfinite(limit.low)) beyond += normal_cdf((limit.low - figure) / u);
  if (std::isfinite(limit.high)) beyond += normal_cdf((figure - limit.high) / u);
  return std::min(beyond, 1.0);  // two tails that were rounded up
}

Outcome guarded(const Judgement& judgement, double guard, const KnownTo& known) {
  const bool is_guarded = judgement.outcome == Outcome::met && guard > 0 && known.has_budget;
  if (!is_guarded || is_missing(judgement.margin)) return judgement.outcome;
  if (is_missing(known.expanded)) return Outcome::qualified;
  return side_of_limit(judgement.margin, guard * known.expanded) == Side::below ? Outcome::qualified : Outcome::met;
}

std::string decision_rule_text(double guard) {
  if (!(guard > 0)) {
    return "simple acceptance: a figure on its limit is accepted, and the true value may then lie beyond it with a "
           "probability of up to 50 %";
  }
  // U is at least 1.96 standard uncertainties: that many where the degrees of freedom are infinite, else more.
  const double worst = 100 * normal_cdf(-normal_quantile(0.975) * guard);
  return "limits narrowed by a guard band of " + with_decimals(guard, 2) +
         " U: what lies between is qualified, and of what is accepted the true value lies beyond the limit with a "
         "probability of at most about " +
         with_significant_digits(worst, 2) + " %";
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/decision_risk.hpp"

#include <algorithm>
#include <cmath>

#include "driftwarden/assessment/drift.hpp"
#include "driftwarden/quantity/limit.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/statistics/normal_distribution.hpp"

namespace driftwarden {
namespace {

KnownTo scaled(const FigureUncertainty& of, double scale) {
  return {of.u * std::abs(scale), of.expanded * std::abs(scale)};
}

// The flow that a rule's base stands for.
double base_of(const Rule& rule, const SampleAssessment& f, double own) {
  if (rule.base == Base::by_practice) return own;
  return base_flow(f.pre_l_min, f.post_l_min, static_cast<DriftBase>(static_cast<int>(rule.base) - 1), f.nominal_l_min);
}

}  // namespace

KnownTo known_to(const Rule& rule, const SampleAssessment& f, const Budget& budget, DriftBase practice) {
  if (rule.of != Subject::sample) return {};
  switch (static_cast<SampleMeasure>(rule.measure)) {
    case SampleMeasure::drift: {
      const double own = base_flow(f.pre_l_min, f.post_l_min, practice, f.nominal_l_min);
      const double scale = rule.limit.is_absolute ? own : own / base_of(rule, f, own);
      return scaled(budget.about(BudgetFigure::drift), scale);
    }
    case SampleMeasure::flow:
      return scaled(budget.about(BudgetFigure::flow), 1);
    case SampleMeasure::flow_deviation:
      return scaled(budget.about(BudgetFigure::flow),
                    rule.limit.is_absolute ? 1 : 1 / base_of(rule, f, f.nominal_l_min));
    case SampleMeasure::volume:
      return scaled(budget.about(BudgetFigure::volume), 1);
    case SampleMeasure::volume_reference:
      return scaled(budget.about(BudgetFigure::volume_reference), 1);
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

Outcome guarded(const Judgement& judgement, double guard, double expanded) {
  if (judgement.outcome != Outcome::met || !(guard > 0) || is_missing(expanded) || is_missing(judgement.margin)) {
    return judgement.outcome;
  }
  return side_of_limit(judgement.margin, guard * expanded) == Side::below ? Outcome::qualified : Outcome::met;
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

// SPDX-License-Identifier: MIT
#include "verdict/decision_risk.hpp"

#include <algorithm>
#include <cmath>

#include "diagnostic/joined.hpp"
#include "quantity/limit.hpp"
#include "quantity/rounding.hpp"
#include "statistics/student_t.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {
namespace {

bool has_two_ends(const Rule& rule) { return std::isfinite(rule.limit.low) && std::isfinite(rule.limit.high); }

std::string percent(double probability) { return with_significant_digits(100 * probability, 2) + " %"; }

// The rule in force that a guard band can protect the least: one with two ends, else any; nullptr: none is guarded.
const Rule* worst_rule(const RuleSet& rules) {
  const Rule* worst = nullptr;
  for (const Rule& rule : rules.rules) {
    if (measure_of(rule).knowledge != Knowledge::stated) continue;
    if (worst == nullptr || (has_two_ends(rule) && !has_two_ends(*worst))) worst = &rule;
  }
  return worst;
}

std::string promise(const Rule& worst, double guard) {
  const double one_end = worst_risk_at_one_end(guard);
  const std::string text =
      "; given its reading and no other knowledge, the true value of what is accepted lies beyond "
      "one end of the limit with a probability of at most " +
      percent(one_end);
  if (!has_two_ends(worst)) return text;
  return text + ", beyond either of two with at most " + percent(std::min(1.0, 2 * one_end)) + " (" +
         worst.full_name() + ")";
}

}  // namespace

double probability_beyond(const Limit& limit, double figure, const KnownTo& known) {
  if (!(known.u > 0) || is_missing(figure)) return missing;
  double beyond = 0;
  if (std::isfinite(limit.low)) beyond += student_t_cdf((limit.low - figure) / known.u, known.dof);
  if (std::isfinite(limit.high)) beyond += student_t_cdf((figure - limit.high) / known.u, known.dof);
  return std::min(beyond, 1.0);  // two tails that were rounded up
}

bool is_within_reach(const Judgement& judgement, const KnownTo& known, double guard) {
  constexpr double reach = 2.01;  // in U
  return judgement.outcome != Outcome::met || !(judgement.margin > std::max(reach, guard) * known.expanded);
}

Outcome guarded(const Judgement& judgement, double guard, const KnownTo& known, Otherwise otherwise) {
  const bool is_guarded = judgement.outcome == Outcome::met && guard > 0 && known.is_stated;
  if (!is_guarded || is_missing(judgement.margin)) return judgement.outcome;
  const Outcome near = otherwise == Otherwise::note ? Outcome::note : Outcome::qualified;
  if (is_missing(known.expanded)) return near;
  return side_of_limit(judgement.margin, guard * known.expanded) == Side::below ? near : Outcome::met;
}

void weigh(Finding& finding, const Rule& rule, const KnownTo& known, double guard, bool is_told_always) {
  const Judgement& judgement = finding.judgement;
  finding.expanded = known.expanded;
  if (is_told_always || is_within_reach(judgement, known, guard)) {
    finding.probability_beyond = has_alternative(rule.limit)
                                     ? probability_beyond(limit_held_to(rule, judgement), judgement.figure, known)
                                     : probability_beyond(rule.limit, judgement.figure, known);
  }
  finding.judgement.outcome = guarded(judgement, guard, known, rule.otherwise);
}

double worst_risk_at_one_end(double guard) {
  double worst = 0;
  for (const double dof : {1.0, infinite_dof}) {
    worst = std::max(worst, student_t_cdf(-guard * coverage_factor(budget_coverage, dof), dof));
  }
  return worst;
}

std::vector<std::string> unguarded(const Screening& screening) {
  std::vector<std::string> names;
  for (const Rule& rule : screening.rules().rules) {
    const Measure& measure = measure_of(rule);
    if (measure.knowledge != Knowledge::not_stated) continue;
    std::string name = std::string(measure.name) + " of a " + std::string(to_text(measure.of));
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
  }
  return names;
}

std::string decision_rule_text(const Screening& screening) {
  const double guard = screening.guard();
  if (!(guard > 0)) {
    return "simple acceptance: a figure on its limit is accepted; given this reading and no other knowledge, the true "
           "value then lies beyond that end of the limit with a probability of up to 50 %";
  }
  std::string text = "limits narrowed by a guard band of " + with_decimals(guard, 2) +
                     " U: what lies between is qualified, and noted where a rule only notes";
  if (const Rule* worst = worst_rule(screening.rules())) text += promise(*worst, guard);
  const std::vector<std::string> without = unguarded(screening);
  return without.empty() ? text : text + ". Unguarded, for no uncertainty of them is stated: " + joined(without, ", ");
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/decision_risk.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "driftwarden/assessment/drift.hpp"
#include "driftwarden/quantity/limit.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/statistics/propagation.hpp"
#include "driftwarden/statistics/student_t.hpp"
#include "driftwarden/verdict/screening.hpp"

namespace driftwarden {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double coverage = 0.95;

double whole(double dof) { return dof < 1 ? dof : std::floor(dof); }

KnownTo known(const FigureUncertainty& of, double scale = 1) {
  return {of.u * std::abs(scale), of.expanded * std::abs(scale), whole(of.dof), true};
}

double standard_of(double half_width) { return half_width / std::numbers::sqrt3; }

// Of the mean flow, where the volume is formed with the lower or the pre flow: half of what acts on each; the flow
// between the checks reaches half as far about their mean.
FigureUncertainty of_the_mean(const Budget& budget) {
  for (const BudgetLack& lack : budget.lacks) {
    if (lack.on_pre != 0 || lack.on_post != 0) return {};
  }
  std::vector<UncertaintyContribution> parts;
  for (const BudgetLine& line : budget.lines) {
    const double between = line.source == BudgetSource::flow_between       ? 0.5
                           : line.source == BudgetSource::field_difference ? 1
                                                                           : 0;
    parts.push_back({line.u, (line.on_pre + line.on_post) / 2 + between, line.dof});
  }
  if (parts.empty()) return {};
  const CombinedUncertainty combined = combined_uncertainty(parts);
  return {combined.u, combined.dof, missing, expanded_uncertainty(combined, coverage)};
}

// What is known of the figures of one sample, one function a kind of measure.
class SampleKnowledge {
 public:
  SampleKnowledge(const Rule& rule, const SampleContext& context)
      : rule_(rule), context_(context), f_(context.figures), said_(context.basis.book.settings.uncertainty) {}

  // A drift as the rule takes it: a change in L/min, or relative to the base of its choice.
  KnownTo drift() const {
    if (rule_.limit.is_absolute) return known(uncertainty_of_change(budget(), {-1, 1}));
    if (rule_.base == Base::by_practice) return known(budget().about(BudgetFigure::drift));
    return known(uncertainty_of_change(
        budget(), drift_weights(f_.pre_l_min, f_.post_l_min, drift_base_of(rule_.base), f_.nominal_l_min)));
  }

  KnownTo flow_deviation() const {
    const bool is_of_nominal = rule_.base == Base::by_practice;
    const double base = is_of_nominal ? f_.nominal_l_min : base_of_rule();
    return known(of_mean_flow(), rule_.limit.is_absolute ? 1 : 1 / base);
  }

  // ∂/∂Q of (Q / Q_nominal)^-n is -n (Q / Q_nominal)^-n / Q.
  KnownTo cut_shift() const { return known(of_mean_flow(), f_.cut_exponent * (1 + f_.cut_shift) / f_.mean_flow_l_min); }

  // Of a set's own flow.
  KnownTo flow_of(const ReadingSet* set) const {
    return set == nullptr ? not_known() : known(of_sets({*set, *set}, {1, 0}));
  }

  // (flow - base) / base of one set, or the difference; from another set it is a drift.
  KnownTo deviation_of(const ReadingSet* set, Base own_base) const {
    if (set == nullptr) return not_known();
    const Base base = rule_.base == Base::by_practice ? own_base : rule_.base;
    if (base == Base::nominal) return known(of_sets({*set, *set}, {1, 0}), scale_by(f_.nominal_l_min));
    if (base == Base::mean) return deviation_from_the_mean(set);
    const ReadingSet* from = base == Base::post ? f_.post_set() : f_.pre_set();
    if (from == nullptr) return not_known();
    if (from == set) return known_by(0, infinite);
    return known(of_sets({*from, *set}, change_of(from->flow.mean, set->flow.mean, DriftBase::pre)));
  }

  KnownTo field_deviation() const {
    return deviation_of(farthest_field_set(f_, field_base(f_, rule_.base)), Base::pre);
  }
  KnownTo field_nominal_deviation() const {
    return deviation_of(farthest_field_set(f_, f_.nominal_l_min), Base::nominal);
  }

  KnownTo minutes() const { return known_by(std::numbers::sqrt2 * standard_of(said_.time_min), infinite); }

  KnownTo temperature_change() const {
    return known_by(std::numbers::sqrt2 * standard_of(said_.temperature_k), infinite);
  }

  // Of the set that the change is of. Relative to the sample's own pressure, that one stands above and below the line.
  KnownTo pressure_change() const {
    const double own = standard_of(half_width_of_pressure(f_.pressure_kpa, false));
    for (const ReadingSet* set : {f_.pre_set(), f_.post_set()}) {
      if (set == nullptr || set->pressure_kpa - f_.pressure_kpa != f_.pressure_change_kpa) continue;
      const double of_set = standard_of(half_width_of_pressure(set->pressure_kpa, set->has_altitude_pressure));
      if (rule_.limit.is_absolute) return known_by(std::hypot(of_set, own), infinite);
      return known_by(std::hypot(of_set, own * set->pressure_kpa / f_.pressure_kpa) / f_.pressure_kpa, infinite);
    }
    return not_known();
  }

  KnownTo temperature() const { return known_by(standard_of(said_.temperature_k), infinite); }
  KnownTo pressure(Row reading) const {
    bool is_from_altitude = false;
    const double kpa = context_.basis.calibrators.pressure_kpa(reading, is_from_altitude);
    return known_by(standard_of(half_width_of_pressure(kpa, is_from_altitude)), infinite);
  }

  // Of a flow or a volume that a method agrees on nothing is uncertain; the budget is of what was drawn.
  KnownTo of_figure(BudgetFigure figure) const {
    return f_.is_conventional ? KnownTo{} : known(budget().about(figure));
  }

 private:
  const Budget& budget() const {
    static const Budget none;
    return context_.budget == nullptr ? none : *context_.budget;
  }
  FigureUncertainty of_mean_flow() const {
    const FlowForVolume flow = context_.basis.practice.flow_for_volume;
    const bool is_another = flow == FlowForVolume::lower || flow == FlowForVolume::pre;
    return is_another ? of_the_mean(budget()) : budget().about(BudgetFigure::flow);
  }
  double base_of_rule() const {
    return base_flow(f_.pre_l_min, f_.post_l_min, drift_base_of(rule_.base), f_.nominal_l_min);
  }
  double scale_by(double base) const { return rule_.limit.is_absolute ? 1 : 1 / base; }

  static KnownTo not_known() { return {missing, missing, missing, true}; }

  double half_width_of_pressure(double kpa, bool is_from_altitude) const {
    return is_from_altitude ? said_.altitude_pressure * kpa : said_.pressure_kpa;
  }

  FlowWeights change_of(double first, double second, DriftBase base) const {
    return rule_.limit.is_absolute ? FlowWeights{-1, 1} : drift_weights(first, second, base, missing);
  }

  // Pre and post flow lie half their change from their mean; a field set's own is not worked out.
  KnownTo deviation_from_the_mean(const ReadingSet* set) const {
    const bool is_of_both = f_.pre >= 0 && f_.post >= 0 && (set == f_.pre_set() || set == f_.post_set());
    if (!is_of_both) return not_known();
    return known(uncertainty_of_change(budget(), change_of(f_.pre_l_min, f_.post_l_min, DriftBase::mean)), 0.5);
  }

  // From the sample's own budget where that is about these sets.
  FigureUncertainty of_sets(const SetPair& sets, FlowWeights weights) const {
    if (!budget().lines.empty()) {
      const bool is_pre = &sets.first == f_.pre_set();
      const bool is_post = &sets.second == f_.post_set();
      if (is_pre && is_post) return uncertainty_of_change(budget(), weights);
      if (&sets.first == &sets.second && is_pre) return uncertainty_of_change(budget(), weights);
      if (&sets.first == &sets.second && is_post) return uncertainty_of_change(budget(), {weights.post, weights.pre});
    }
    return uncertainty_of_sets(context_.basis, f_, sets, weights);
  }

  const Rule& rule_;
  const SampleContext& context_;
  const SampleAssessment& f_;
  const Settings::Uncertainty& said_;
};

KnownTo of_sample(const SampleKnowledge& knowledge, const SampleAssessment& f, SampleMeasure measure) {
  switch (measure) {
    case SampleMeasure::drift:
      return knowledge.drift();
    case SampleMeasure::flow:
      return knowledge.of_figure(BudgetFigure::flow);
    case SampleMeasure::flow_deviation:
      return knowledge.flow_deviation();
    case SampleMeasure::pre_flow:
      return knowledge.flow_of(f.pre_set());
    case SampleMeasure::post_flow:
      return knowledge.flow_of(f.post_set());
    case SampleMeasure::pre_deviation:
      return knowledge.deviation_of(f.pre_set(), Base::nominal);
    case SampleMeasure::post_deviation:
      return knowledge.deviation_of(f.post_set(), Base::nominal);
    case SampleMeasure::field_deviation:
      return knowledge.field_deviation();
    case SampleMeasure::field_nominal_deviation:
      return knowledge.field_nominal_deviation();
    case SampleMeasure::minutes:
      return knowledge.minutes();
    case SampleMeasure::volume:
      return knowledge.of_figure(BudgetFigure::volume);
    case SampleMeasure::volume_reference:
      return knowledge.of_figure(BudgetFigure::volume_reference);
    case SampleMeasure::temperature_change:
      return knowledge.temperature_change();
    case SampleMeasure::pressure_change:
      return knowledge.pressure_change();
    case SampleMeasure::cut_shift:
      return knowledge.cut_shift();
    default:
      return {};
  }
}

KnownTo of_set(const SampleKnowledge& knowledge, const ReadingSet& set, SetMeasure measure) {
  if (measure == SetMeasure::flow) return knowledge.flow_of(&set);
  if (measure == SetMeasure::flow_deviation) return knowledge.deviation_of(&set, Base::nominal);
  return {};
}

KnownTo of_reading(const SampleKnowledge& knowledge, Row reading, ReadingMeasure measure) {
  if (measure == ReadingMeasure::temperature) return knowledge.temperature();
  if (measure == ReadingMeasure::pressure) return knowledge.pressure(reading);
  return {};
}

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

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

}  // namespace

KnownTo known_by(double u, double dof) {
  const double used = whole(dof);
  return {u, coverage_factor(coverage, used) * u, used, true};
}

KnownTo known_to(const Rule& rule, const SampleContext& context, const ReadingSet* set, Row reading) {
  if (measure_of(rule).knowledge != Knowledge::stated) return {};
  const SampleKnowledge knowledge(rule, context);
  switch (rule.of) {
    case Subject::sample:
      return of_sample(knowledge, context.figures, static_cast<SampleMeasure>(rule.measure));
    case Subject::set:
      return of_set(knowledge, *set, static_cast<SetMeasure>(rule.measure));
    case Subject::reading:
      return of_reading(knowledge, reading, static_cast<ReadingMeasure>(rule.measure));
    case Subject::calibrator:
    case Subject::pump:
    case Subject::batch:
      break;
  }
  return {};
}

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

Outcome guarded(const Judgement& judgement, double guard, const KnownTo& known) {
  const bool is_guarded = judgement.outcome == Outcome::met && guard > 0 && known.is_stated;
  if (!is_guarded || is_missing(judgement.margin)) return judgement.outcome;
  if (is_missing(known.expanded)) return Outcome::qualified;
  return side_of_limit(judgement.margin, guard * known.expanded) == Side::below ? Outcome::qualified : Outcome::met;
}

void weigh(Finding& finding, const Limit& limit, const KnownTo& known, double guard, bool is_told_always) {
  const Judgement& judgement = finding.judgement;
  finding.expanded = known.expanded;
  if (is_told_always || is_within_reach(judgement, known, guard)) {
    finding.probability_beyond = probability_beyond(limit, judgement.figure, known);
  }
  finding.judgement.outcome = guarded(judgement, guard, known);
}

double worst_risk_at_one_end(double guard) {
  double worst = 0;
  for (const double dof : {1.0, infinite}) {
    worst = std::max(worst, student_t_cdf(-guard * coverage_factor(coverage, dof), dof));
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
  std::string text =
      "limits narrowed by a guard band of " + with_decimals(guard, 2) + " U: what lies between is qualified";
  if (const Rule* worst = worst_rule(screening.rules())) text += promise(*worst, guard);
  const std::vector<std::string> without = unguarded(screening);
  return without.empty() ? text : text + ". Unguarded, for no uncertainty of them is stated: " + joined(without);
}

}  // namespace driftwarden

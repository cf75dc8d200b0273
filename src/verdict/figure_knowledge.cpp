// SPDX-License-Identifier: MIT
#include "verdict/figure_knowledge.hpp"

#include <cmath>
#include <numbers>

#include "assessment/drift.hpp"
#include "quantity/elementary.hpp"
#include "statistics/distribution_shape.hpp"
#include "statistics/student_t.hpp"
#include "statistics/welch_satterthwaite.hpp"

namespace driftwarden {
namespace {

KnownTo known(const FigureUncertainty& of, double scale = 1) {
  return {of.u * std::abs(scale), of.expanded * std::abs(scale), whole_degrees_of_freedom(of.dof), true};
}

double standard_of(double half_width) { return standard_uncertainty(DistributionShape::rectangular, half_width); }

}  // namespace

KnownTo known_by(double u, double dof) {
  const double used = whole_degrees_of_freedom(dof);
  return {u, coverage_factor(budget_coverage, used) * u, used, true};
}

KnownTo SampleKnowledge::drift() const {
  if (rule_.limit.is_absolute) return known(uncertainty_of_change(budget(), {-1, 1}));
  if (rule_.base == Base::by_practice) return known(budget().about(BudgetFigure::drift));
  return known(uncertainty_of_change(
      budget(), drift_weights(f_.pre_l_min, f_.post_l_min, drift_base_of(rule_.base), f_.nominal_l_min)));
}

KnownTo SampleKnowledge::flow_deviation() const {
  const bool is_of_nominal = rule_.base == Base::by_practice;
  const double base = is_of_nominal ? f_.nominal_l_min : base_of_rule();
  return known(of_mean_flow(), rule_.limit.is_absolute ? 1 : 1 / base);
}

KnownTo SampleKnowledge::cut_shift() const {
  return known(of_mean_flow(), exponent_at(f_.cut, f_.cut_um) * (1 + f_.cut_shift) / f_.mean_flow_l_min);
}

KnownTo SampleKnowledge::cut_size() const {
  return known(of_mean_flow(), exponent_at(f_.cut, f_.cut_um) * f_.cut_um / f_.mean_flow_l_min);
}

KnownTo SampleKnowledge::field_deviation() const {
  return deviation_of(farthest_field_set(f_, field_base(f_, rule_.base)), Base::pre);
}

KnownTo SampleKnowledge::field_nominal_deviation() const {
  return deviation_of(farthest_field_set(f_, f_.nominal_l_min), Base::nominal);
}

KnownTo SampleKnowledge::minutes() const {
  return known_by(std::numbers::sqrt2 * standard_of(said_.time_min), infinite_dof);
}

KnownTo SampleKnowledge::temperature_change() const {
  return known_by(std::numbers::sqrt2 * standard_of(said_.temperature_k), infinite_dof);
}

KnownTo SampleKnowledge::pressure_change() const {
  const double own = standard_of(half_width_of_pressure(f_.pressure_kpa, false));
  for (const ReadingSet* set : {f_.pre_set(), f_.post_set()}) {
    if (set == nullptr || set->pressure_kpa - f_.pressure_kpa != f_.pressure_change_kpa) continue;
    const double of_set = standard_of_pressure(*set);
    if (rule_.limit.is_absolute) return known_by(elementary::hypot(of_set, own), infinite_dof);
    return known_by(elementary::hypot(of_set, own * set->pressure_kpa / f_.pressure_kpa) / f_.pressure_kpa,
                    infinite_dof);
  }
  return not_known();
}

KnownTo SampleKnowledge::temperature(Row) const { return known_by(standard_of(said_.temperature_k), infinite_dof); }

KnownTo SampleKnowledge::pressure(Row reading) const {
  bool is_from_altitude = false;
  const double kpa = context_.basis.calibrators.pressure_kpa(reading, is_from_altitude);
  return known_by(standard_of(half_width_of_pressure(kpa, is_from_altitude)), infinite_dof);
}

KnownTo SampleKnowledge::flow_of(const ReadingSet* set) const {
  return set == nullptr ? not_known() : known(of_sets({*set, *set}, {1, 0}));
}

KnownTo SampleKnowledge::deviation_of(const ReadingSet* set, Base own_base) const {
  if (set == nullptr) return not_known();
  const Base base = rule_.base == Base::by_practice ? own_base : rule_.base;
  if (base == Base::nominal) return known(of_sets({*set, *set}, {1, 0}), scale_by(f_.nominal_l_min));
  if (base == Base::mean) return deviation_from_the_mean(set);
  const ReadingSet* from = base == Base::post ? f_.post_set() : f_.pre_set();
  if (from == nullptr) return not_known();
  if (from == set) return known_by(0, infinite_dof);
  return known(of_sets({*from, *set}, change_of(from->flow.mean, set->flow.mean, DriftBase::pre)));
}

KnownTo SampleKnowledge::of_figure(BudgetFigure figure) const {
  return f_.is_conventional ? KnownTo{} : known(budget().about(figure));
}

const Budget& SampleKnowledge::budget() const {
  static const Budget none;
  return context_.budget == nullptr ? none : *context_.budget;
}

FigureUncertainty SampleKnowledge::of_mean_flow() const {
  const FlowForVolume flow = context_.basis.practice.flow_for_volume;
  const bool is_another = flow == FlowForVolume::lower || flow == FlowForVolume::pre;
  return is_another ? uncertainty_of_mean_flow(budget()) : budget().about(BudgetFigure::flow);
}

double SampleKnowledge::base_of_rule() const {
  return base_flow(f_.pre_l_min, f_.post_l_min, drift_base_of(rule_.base), f_.nominal_l_min);
}

FlowWeights SampleKnowledge::change_of(double first, double second, DriftBase base) const {
  return rule_.limit.is_absolute ? FlowWeights{-1, 1} : drift_weights(first, second, base, missing);
}

double SampleKnowledge::standard_of_pressure(const ReadingSet& set) const {
  const double share = set.altitude_share;
  const double site = context_.basis.calibrators.site_pressure_kpa().value_or(missing);
  const double by_altitude = share > 0 ? share * half_width_of_pressure(site, true) : 0;
  const double as_read = (1 - share) * said_.pressure_kpa;
  return standard_of(elementary::hypot(by_altitude, as_read));
}

KnownTo SampleKnowledge::deviation_from_the_mean(const ReadingSet* set) const {
  const bool is_of_both = f_.pre >= 0 && f_.post >= 0 && (set == f_.pre_set() || set == f_.post_set());
  if (is_of_both)
    return known(uncertainty_of_change(budget(), change_of(f_.pre_l_min, f_.post_l_min, DriftBase::mean)), 0.5);
  const double mean = (f_.pre_l_min + f_.post_l_min) / 2;
  const double of_each = rule_.limit.is_absolute ? -0.5 : -set->flow.mean / (2 * mean);
  return known(uncertainty_from_both(context_.basis, f_, *set, {of_each, of_each}, scale_by(mean)));
}

FigureUncertainty SampleKnowledge::of_sets(const SetPair& sets, FlowWeights weights) const {
  if (!budget().lines.empty()) {
    const bool is_pre = &sets.first == f_.pre_set();
    const bool is_post = &sets.second == f_.post_set();
    if (is_pre && is_post) return uncertainty_of_change(budget(), weights);
    if (&sets.first == &sets.second && is_pre) return uncertainty_of_change(budget(), weights);
    if (&sets.first == &sets.second && is_post) return uncertainty_of_change(budget(), {weights.post, weights.pre});
  }
  return uncertainty_of_sets(context_.basis, f_, sets, weights);
}

}  // namespace driftwarden

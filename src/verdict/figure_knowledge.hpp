// SPDX-License-Identifier: MIT
#pragma once

#include "verdict/measured.hpp"

namespace driftwarden {

// How well the figures of one sample are known that a rule compares, one function a measure. Which of them goes with
// which measure: verdict/sample_figures; of sets and readings: verdict/measured.
class SampleKnowledge {
 public:
  SampleKnowledge(const Rule& rule, const SampleContext& context)
      : rule_(rule), context_(context), f_(context.figures), said_(context.basis.book.settings.uncertainty) {}
  // A drift as the rule takes it: a change in L/min, or relative to the base of its choice.
  KnownTo drift() const;
  KnownTo flow_deviation() const;
  // ∂d50/∂Q is -n d50 / Q, with the exponent n where the cut stands.
  KnownTo cut_shift() const;
  KnownTo cut_size() const;
  KnownTo pre_flow() const { return flow_of(f_.pre_set()); }
  KnownTo post_flow() const { return flow_of(f_.post_set()); }
  KnownTo pre_deviation() const { return deviation_of(f_.pre_set(), Base::nominal); }
  KnownTo post_deviation() const { return deviation_of(f_.post_set(), Base::nominal); }
  // Of a flow or a volume that a method agrees on nothing is uncertain; the budget is of what was drawn.
  KnownTo flow() const { return of_figure(BudgetFigure::flow); }
  KnownTo volume() const { return of_figure(BudgetFigure::volume); }
  KnownTo volume_reference() const { return of_figure(BudgetFigure::volume_reference); }
  KnownTo flow_of_set(const ReadingSet& set) const { return flow_of(&set); }
  KnownTo deviation_of_set(const ReadingSet& set) const { return deviation_of(&set, Base::nominal); }
  KnownTo field_deviation() const;
  KnownTo field_nominal_deviation() const;
  KnownTo minutes() const;
  KnownTo temperature_change() const;
  // Of the set that the change is of. Relative to the sample's own pressure, that one stands above and below the line.
  KnownTo pressure_change() const;
  KnownTo temperature(Row) const;
  KnownTo pressure(Row reading) const;

 private:
  // Of a set's own flow.
  KnownTo flow_of(const ReadingSet* set) const;
  // (flow - base) / base of one set, or the difference; from another set it is a drift.
  KnownTo deviation_of(const ReadingSet* set, Base own_base) const;
  KnownTo of_figure(BudgetFigure figure) const;
  const Budget& budget() const;
  FigureUncertainty of_mean_flow() const;
  double base_of_rule() const;
  double scale_by(double base) const { return rule_.limit.is_absolute ? 1 : 1 / base; }
  static KnownTo not_known() { return {missing, missing, missing, true}; }
  double half_width_of_pressure(double kpa, bool is_from_altitude) const {
    return is_from_altitude ? said_.altitude_pressure * kpa : said_.pressure_kpa;
  }
  // Of a mean of readings, some of them without a pressure of their own: the barometer acts on the others alone.
  double standard_of_pressure(const ReadingSet& set) const;
  FlowWeights change_of(double first, double second, DriftBase base) const;
  // Pre and post flow lie half their change from their mean.
  KnownTo deviation_from_the_mean(const ReadingSet* set) const;
  // From the sample's own budget where that is about these sets.
  FigureUncertainty of_sets(const SetPair& sets, FlowWeights weights) const;

  const Rule& rule_;
  const SampleContext& context_;
  const SampleAssessment& f_;
  const Settings::Uncertainty& said_;
};

}  // namespace driftwarden

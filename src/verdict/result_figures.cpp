// SPDX-License-Identifier: MIT
#include "verdict/result_figures.hpp"

#include <cmath>

#include "rule/measure_catalogue.hpp"
#include "statistics/welch_satterthwaite.hpp"
#include "verdict/sample_figures.hpp"

namespace driftwarden {
namespace {
namespace of_results {

using C = ResultContext;

bool is_problem(const C& c) { return c.result().problem != no_problem || c.figures.blanks->problem != no_problem; }

// Of an amount or a concentration that is a mass.
MeasureValue of_mass(const C& c, double figure) {
  return c.result().is_of_fibres || is_problem(c) ? MeasureValue{} : number_value(figure);
}

MeasureValue mass(const C& c) { return of_mass(c, c.result().found); }
MeasureValue mass_net(const C& c) { return of_mass(c, c.figures.net); }

MeasureValue detected(const C& c) {
  return is_missing(c.result().limit) || is_problem(c) ? MeasureValue{} : yes_no_value(!c.figures.is_less_than);
}

MeasureValue blank_count(const C& c) { return number_value(static_cast<double>(c.figures.blanks->results.size())); }

MeasureValue blank_share(const C& c) {
  const BatchBlanks& blanks = *c.figures.blanks;
  return number_value(static_cast<double>(blanks.results.size()) / static_cast<double>(blanks.samples));
}

MeasureValue blank_mean(const C& c) { return of_mass(c, c.figures.blanks->amounts.mean); }

MeasureValue blank_above_limit(const C& c) {
  const BatchBlanks& blanks = *c.figures.blanks;
  if (is_problem(c) || blanks.results.empty()) return {};
  if (blanks.above_limit > 0) return yes_no_value(true);
  return blanks.without_limit > 0 ? MeasureValue{} : yes_no_value(false);
}

MeasureValue concentration(const C& c) {
  return c.figures.is_less_than ? MeasureValue{} : of_mass(c, c.figures.concentration);
}

MeasureValue concentration_uncertainty(const C& c) {
  if (c.figures.concentration == 0) return {};  // nothing to set it beside
  return number_value(c.figures.of_concentration.expanded / std::abs(c.figures.concentration));
}

MeasureValue balance_certificate_missing(const C& c) {
  const Weighing& weighing = c.figures.weighing;
  const bool is_known = weighing.balance != no_row && weighing.has_days();
  return is_known ? yes_no_value(weighing.lacks_certificate()) : MeasureValue{};
}

MeasureValue balance_overdue(const C& c) { return number_value(c.figures.overdue_min); }

MeasureValue control_count(const C& c) {
  const bool is_known = c.result().is_weighed() && !is_problem(c);
  return is_known ? number_value(static_cast<double>(c.figures.controls->filters.size())) : MeasureValue{};
}

MeasureValue control_mean(const C& c) { return of_mass(c, c.figures.controls->changes.mean); }
MeasureValue control_change(const C& c) { return of_mass(c, c.figures.controls->largest_mg); }

KnownTo known(const FigureUncertainty& of) { return {of.u, of.expanded, whole_degrees_of_freedom(of.dof), true}; }

KnownTo mass_known(const C& c) { return known(c.figures.of_found); }
KnownTo net_known(const C& c) { return known(c.figures.of_net); }
KnownTo concentration_known(const C& c) { return known(c.figures.of_concentration); }

KnownTo mean_known(const MeanAndSpread& of) {
  if (of.n < 2) return {missing, missing, missing, true};
  const auto n = static_cast<double>(of.n);
  return known_by(of.s / std::sqrt(n), n - 1);
}
KnownTo blank_mean_known(const C& c) { return known(uncertainty_of_mean(*c.figures.blanks)); }
KnownTo control_mean_known(const C& c) { return mean_known(c.figures.controls->changes); }

struct ResultFigure {
  ResultMeasure measure;
  MeasureValue (*value)(const ResultContext& context);
  KnownTo (*known)(const ResultContext& context) = nullptr;
  bool leans_on_blanks = false;
  bool leans_on_controls = false;
};

using M = ResultMeasure;
constexpr ResultFigure figures[] = {
    {M::mass, mass, mass_known},
    {M::mass_net, mass_net, net_known, true, true},
    {M::detected, detected, nullptr, true, true},
    {M::blank_count, blank_count, nullptr, true},
    {M::blank_share, blank_share, nullptr, true},
    {M::blank_mean, blank_mean, blank_mean_known, true},
    {M::blank_above_limit, blank_above_limit, nullptr, true},
    {M::concentration, concentration, concentration_known, true, true},
    {M::concentration_uncertainty, concentration_uncertainty, nullptr, true, true},
    {M::balance_certificate_missing, balance_certificate_missing},
    {M::balance_overdue, balance_overdue},
    {M::control_count, control_count, nullptr, false, true},
    {M::control_mean, control_mean, control_mean_known, false, true},
    {M::control_change, control_change, nullptr, false, true},
};
#ifndef __SANITIZE_ADDRESS__  // with undefined behaviour watched, g++ 12 takes no function's address for a constant
static_assert(are_complete(figures, catalogue::result_measures));
#endif

const ResultFigure& figure_of(ResultMeasure measure) { return figures[static_cast<std::size_t>(measure)]; }

}  // namespace of_results
}  // namespace

MeasureValue result_measure(const ResultContext& context, ResultMeasure measure) {
  return of_results::figure_of(measure).value(context);
}

KnownTo result_known(const ResultContext& context, ResultMeasure measure) {
  const of_results::ResultFigure& figure = of_results::figure_of(measure);
  return figure.known == nullptr ? KnownTo{} : figure.known(context);
}

bool leans_on_blanks(ResultMeasure measure) { return of_results::figure_of(measure).leans_on_blanks; }

bool leans_on_controls(ResultMeasure measure) { return of_results::figure_of(measure).leans_on_controls; }

std::string_view why_missing(const LackTexts& texts, const ResultContext& context, ResultMeasure measure) {
  const ResultFigures& f = context.figures;
  if (of_results::is_problem(context)) return texts.not_said;
  if (measure == ResultMeasure::detected) return texts.no_limit;
  if (measure == ResultMeasure::balance_certificate_missing) return texts.not_weighed;
  if (measure == ResultMeasure::balance_overdue) return f.weighing.has_days() ? texts.no_due : texts.not_weighed;
  const bool is_of_mass = measures(Subject::result)[static_cast<std::size_t>(measure)].dimension != Dimension::ratio;
  if (context.result().is_of_fibres && is_of_mass && measure != ResultMeasure::blank_above_limit) return texts.counted;
  const bool is_of_controls = measure == ResultMeasure::control_mean || measure == ResultMeasure::control_change;
  if (is_of_controls || measure == ResultMeasure::control_count) return texts.no_control;
  const bool is_of_blanks = measure == ResultMeasure::blank_mean || measure == ResultMeasure::blank_above_limit;
  if (is_of_blanks) return f.blanks->results.empty() ? texts.no_blank : texts.no_limit;
  if (f.is_less_than || context.result().is_less_than()) return texts.less_than;
  if (is_missing(f.net)) return f.taken_off == TakenOff::controls ? texts.no_control : texts.no_blank;
  if (is_missing(f.concentration)) return texts.no_air;
  return texts.no_uncertainty;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "verdict/sample_figures.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/drift.hpp"
#include "rule/measure_catalogue.hpp"

namespace driftwarden {
namespace {

MeasureValue drift_of(const SampleContext& context, Base base) {
  const SampleAssessment& f = context.figures;
  const double relative =
      base == Base::by_practice ? f.drift : drift(f.pre_l_min, f.post_l_min, drift_base_of(base), f.nominal_l_min);
  return {relative, f.post_l_min - f.pre_l_min, {}, f.post_l_min, f.pre_l_min};
}

MeasureValue farthest_in_field(const SampleAssessment& f, double from_l_min) {
  const ReadingSet* set = farthest_field_set(f, from_l_min);
  return set == nullptr ? MeasureValue{} : deviation_value(set->flow.mean, from_l_min);
}

template <Selector of>
MeasureValue is_known(const SampleContext& context, Base) {
  if (context.words == nullptr) return {};
  const TextId word = context.words->written(of, context.figures.sample);
  if (word == 0) return {};
  return yes_no_value(!context.words->is_unknown(of, word) || rules_left_out(context, of).empty());
}

template <Selector of>
std::string unknown_text(const SampleContext& context, const Texts& texts) {
  return unknown_word_text(context, of, texts);
}

double worse(double a, double b) { return std::fmax(a, b); }  // passes over a missing one

MeasureValue fault(const SampleContext& context, Base) {
  const YesNo said = field(context.basis.book.samples.fault, context.figures.sample, YesNo::unsaid);
  return said == YesNo::unsaid ? MeasureValue{} : yes_no_value(said == YesNo::yes);
}

MeasureValue same_calibrator(const SampleContext& context, Base) {
  const SampleAssessment& f = context.figures;
  if (f.pre < 0 || f.post < 0) return {};
  return yes_no_value(f.pre_set()->rows.calibrator == f.post_set()->rows.calibrator);
}

MeasureValue certificate_missing(const SampleContext& context, Base) {
  const SampleAssessment& f = context.figures;
  if (f.sets.empty()) return {};
  return yes_no_value(
      std::any_of(f.sets.begin(), f.sets.end(), [](const ReadingSet& set) { return set.lacks_certificate; }));
}

// Where the rotameters of the counting sets are read; "top" speaks before "centre".
MeasureValue read_at(const SampleContext& context, Base) {
  MeasureValue value;
  for (const ReadingSet* set : {context.figures.pre_set(), context.figures.post_set()}) {
    if (set == nullptr || set->rows.calibrator == no_row) continue;
    const Instrument& calibrator = context.basis.book.instruments[set->rows.calibrator];
    if (calibrator.principle != Principle::rotameter || calibrator.read_at == ReadAt::unknown) continue;
    if (value.word.empty() || calibrator.read_at == ReadAt::top) value.word = to_text(calibrator.read_at);
  }
  return value;
}

MeasureValue overdue(const SampleContext& context, Base) {
  double worst = missing;
  for (const ReadingSet& set : context.figures.sets) worst = worse(worst, set.overdue_min);
  return number_value(worst);
}

MeasureValue farthest_out(const SampleContext& context, Base) {
  BeyondRange farthest;
  for (const ReadingSet& set : context.figures.sets) {
    farthest.ratio = worse(farthest.ratio, set.beyond_range.ratio);
    farthest.l_min = worse(farthest.l_min, set.beyond_range.l_min);
  }
  return range_of(farthest);
}

// The sets that such a figure comes from.
bool is_most_overdue(const SampleContext& context, const ReadingSet& set) {
  return set.overdue_min == overdue(context, {}).figure;
}
bool is_farthest_out(const SampleContext& context, const ReadingSet& set) {
  return set.beyond_range.ratio == farthest_out(context, {}).figure;
}
bool lacks_certificate(const SampleContext&, const ReadingSet& set) { return set.lacks_certificate; }
bool is_read_so(const SampleContext& context, const ReadingSet& set) {
  return to_text(context.basis.book.instruments[set.rows.calibrator].read_at) == read_at(context, {}).word;
}
bool lacks_serial(const SampleContext& context, const ReadingSet& set) {
  return context.basis.book.instruments[set.rows.calibrator].serial.empty();
}
MeasureValue volume_uncertainty(const SampleContext& context, Base) {
  if (context.budget == nullptr) return {};
  const double expanded = context.budget->about(BudgetFigure::volume).expanded;
  return number_value(expanded / context.figures.measured_volume_l, expanded);
}

// U = 2u of the certificates at the sets' indications, the larger.
MeasureValue calibrator_uncertainty(const SampleContext& context, Base) {
  if (context.budget == nullptr) return {};
  double worst = missing;
  for (const BudgetLine& line : context.budget->lines) {
    const bool is_certificate = line.source == BudgetSource::certificate ||
                                line.source == BudgetSource::pre_certificate ||
                                line.source == BudgetSource::post_certificate;
    if (is_certificate) worst = worse(worst, 2 * line.u);
  }
  return number_value(worst);
}

// A figure of the assessment as it stands there.
template <double SampleAssessment::*figure>
MeasureValue own(const SampleContext& context, Base) {
  return number_value(context.figures.*figure);
}

template <double SampleAssessment::*flow>
MeasureValue from_nominal(const SampleContext& context, Base base) {
  return difference(context.figures, context.figures.*flow, base, context.figures.nominal_l_min);
}

template <MeasureValue (*of)(const ReadingSet*), const ReadingSet* (SampleAssessment::*set)() const>
MeasureValue of_set(const SampleContext& context, Base) {
  return of((context.figures.*set)());
}

template <void (*look_at)(const SampleContext&, RecordLook&)>
MeasureValue whether_written(const SampleContext& context, Base) {
  RecordLook look;
  look_at(context, look);
  return look.value();
}

MeasureValue field_count(const SampleContext& context, Base) {
  return number_value(static_cast<double>(context.figures.field_count()));
}

MeasureValue field_deviation(const SampleContext& context, Base base) {
  return farthest_in_field(context.figures, field_base(context.figures, base));
}

MeasureValue field_nominal_deviation(const SampleContext& context, Base) {
  return farthest_in_field(context.figures, context.figures.nominal_l_min);
}

MeasureValue warm_up(const SampleContext& context, Base) {
  return number_value(field(context.basis.book.samples.warm_up_min, context.figures.sample));
}

MeasureValue vacuum(const SampleContext& context, Base) {
  return number_value(field(context.basis.book.samples.vacuum_kpa, context.figures.sample));
}

MeasureValue leak(const SampleContext& context, Base) {
  return number_value(field(context.basis.book.samples.leak_l_min, context.figures.sample));
}

MeasureValue interruptions(const SampleContext& context, Base) {
  return number_value(field(context.basis.book.samples.interruptions, context.figures.sample));
}

MeasureValue pressure_drop(const SampleContext& context, Base) {
  return number_value(field(context.basis.book.samples.pressure_drop_kpa, context.figures.sample));
}

MeasureValue pulsation(const SampleContext& context, Base) {
  return number_value(field(context.basis.book.samples.pulsation, context.figures.sample));
}

MeasureValue pressure_change(const SampleContext& context, Base) {
  const SampleAssessment& f = context.figures;
  const double own_kpa = field(context.basis.book.samples.pressure_kpa, f.sample);
  return number_value(f.pressure_change_kpa / own_kpa, f.pressure_change_kpa);
}

MeasureValue overlap(const SampleContext& context, Base) { return number_value(context.overlap.minutes); }

MeasureValue states_uncertainty(const SampleContext& context, Base base) {
  return yes_no_value(!is_missing(volume_uncertainty(context, base).figure));
}

// The end of a range that lies farther from 0.
double farther(const Bounds& range) {
  return std::abs(range.lower) > std::abs(range.upper) ? range.lower : range.upper;
}

template <class ErrorOf>
MeasureValue of_mass(const SampleContext& context, ErrorOf error_of) {
  const std::optional<MassChange> change = context.basis.mass_change(context.figures);
  return change && change->is_known ? number_value(farther(error_of(*change))) : MeasureValue{};
}

MeasureValue mass_shift_actual(const SampleContext& context, Base) {
  return of_mass(context, [](const MassChange& change) { return change.errors.by_actual_volume; });
}

MeasureValue mass_shift_nominal(const SampleContext& context, Base) {
  return of_mass(context, [](const MassChange& change) { return change.errors.by_nominal_volume; });
}

MeasureValue mass_bias(const SampleContext& context, Base) {
  return of_mass(context, [](const MassChange& change) { return change.bias; });
}

using A = SampleAssessment;
using K = SampleKnowledge;
using M = SampleMeasure;

template <void (*look_at)(const SampleContext&, RecordLook&)>
constexpr SampleFigure record(SampleMeasure measure) {
  return {measure, whether_written<look_at>, nullptr, look_at};
}

constexpr SampleFigure figures[] = {
    {M::drift, drift_of, &K::drift},
    {M::flow, own<&A::flow_l_min>, &K::flow},
    {M::flow_deviation, from_nominal<&A::mean_flow_l_min>, &K::flow_deviation},
    {M::pre_flow, own<&A::pre_l_min>, &K::pre_flow},
    {M::post_flow, own<&A::post_l_min>, &K::post_flow},
    {M::pre_deviation, from_nominal<&A::pre_l_min>, &K::pre_deviation},
    {M::post_deviation, from_nominal<&A::post_l_min>, &K::post_deviation},
    {M::pre_count, of_set<count_of, &A::pre_set>},
    {M::post_count, of_set<count_of, &A::post_set>},
    {M::pre_rsd, of_set<spread_of, &A::pre_set>},
    {M::post_rsd, of_set<spread_of, &A::post_set>},
    {M::field_count, field_count},
    {M::field_deviation, field_deviation, &K::field_deviation},
    {M::minutes, own<&A::minutes>, &K::minutes},
    {M::paused, own<&A::paused_min>},
    {M::volume, own<&A::volume_l>, &K::volume},
    {M::volume_reference, own<&A::volume_reference_l>, &K::volume_reference},
    {M::volume_uncertainty, volume_uncertainty},
    {M::warm_up, warm_up},
    {M::vacuum, vacuum},
    {M::leak, leak},
    {M::interruptions, interruptions},
    {M::pressure_drop, pressure_drop},
    {M::pulsation, pulsation},
    {M::pre_age, own<&A::pre_age_min>},
    {M::post_age, own<&A::post_age_min>},
    {M::temperature_change, own<&A::temperature_change_k>, &K::temperature_change},
    {M::pressure_change, pressure_change, &K::pressure_change},
    {M::overlap, overlap},
    {M::fault, fault},
    SampleFigure{M::calibrator_overdue, overdue}.of_sets(is_most_overdue),
    SampleFigure{M::calibrator_range, farthest_out}.of_sets(is_farthest_out),
    {M::calibrator_same, same_calibrator},
    SampleFigure{M::calibrator_read_at, read_at}.of_sets(is_read_so),
    SampleFigure{M::certificate_missing, certificate_missing}.of_sets(lacks_certificate),
    {M::cut_shift, own<&A::cut_shift>, &K::cut_shift},
    {M::cut_size, own<&A::cut_um>, &K::cut_size},
    {M::mass_shift_actual, mass_shift_actual},
    {M::mass_shift_nominal, mass_shift_nominal},
    {M::mass_bias, mass_bias},
    {M::calibrator_uncertainty, calibrator_uncertainty},
    record<look_at_pump_serial>(M::record_pump_serial),
    record<look_at_by>(M::record_by),
    record<look_at_conditions>(M::record_conditions),
    record<look_at_sampling_conditions>(M::record_sampling_conditions),
    record<look_at_calibrator_serial>(M::record_calibrator_serial).of_sets(lacks_serial),
    record<look_at_certificate_uncertainty>(M::record_certificate_uncertainty).of_sets(lacks_certificate_uncertainty),
    record<look_at_certificate_issuer>(M::record_certificate_issuer).of_sets(lacks_certificate_issuer),
    record<look_at_certificate_standard>(M::record_certificate_standard).of_sets(lacks_certificate_standard),
    record<look_at_chain>(M::record_chain).of_sets(has_a_gap_behind_it),
    record<look_at_void_reasons>(M::record_void_reasons),
    record<look_at_method>(M::record_method),
    record<look_at_fault>(M::record_fault),
    {M::record_uncertainty, states_uncertainty},
    {M::field_nominal_deviation, field_nominal_deviation, &K::field_nominal_deviation},
    {M::sampler_known, is_known<Selector::sampler>, nullptr, nullptr, unknown_text<Selector::sampler>},
    {M::method_known, is_known<Selector::method>, nullptr, nullptr, unknown_text<Selector::method>},
    {M::analysis_known, is_known<Selector::analysis>, nullptr, nullptr, unknown_text<Selector::analysis>},
};
#ifndef __SANITIZE_ADDRESS__  // with undefined behaviour watched, g++ 12 takes no function's address for a constant
static_assert(are_complete(figures, catalogue::sample_measures));
#endif

}  // namespace

const SampleFigure& figure_of(SampleMeasure measure) { return figures[static_cast<std::size_t>(measure)]; }

MeasureValue count_of(const ReadingSet* set) {
  return number_value(set == nullptr ? 0 : static_cast<double>(set->flow.n));
}

MeasureValue spread_of(const ReadingSet* set) {
  return set == nullptr ? MeasureValue{} : number_value(set->flow.relative_s(), set->flow.s);
}

MeasureValue range_of(const BeyondRange& beyond) { return number_value(beyond.ratio, beyond.l_min); }

MeasureValue difference(const SampleAssessment& figures, double flow_l_min, Base base, double own_base_l_min) {
  double from = own_base_l_min;
  if (base != Base::by_practice) {
    from = base_flow(figures.pre_l_min, figures.post_l_min, drift_base_of(base), figures.nominal_l_min);
  }
  return deviation_value(flow_l_min, from);
}

}  // namespace driftwarden

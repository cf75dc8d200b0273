// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/measured.hpp"

#include <algorithm>
#include <cmath>

#include "driftwarden/assessment/drift.hpp"
#include "driftwarden/assessment/sampled_volume.hpp"
#include "verdict/record_measure.hpp"

namespace driftwarden {
namespace {

MeasureValue count(const ReadingSet* set) {
  return number_value(set == nullptr ? 0 : static_cast<double>(set->flow.n));
}

// How far a flow is from the base a rule names, or from the measure's own.
MeasureValue difference(const SampleAssessment& figures, double flow_l_min, Base base, double own_base_l_min) {
  double from = own_base_l_min;
  if (base != Base::by_practice) {
    from = base_flow(figures.pre_l_min, figures.post_l_min, drift_base_of(base), figures.nominal_l_min);
  }
  return number_value((flow_l_min - from) / from, flow_l_min - from);
}

MeasureValue drift_on(const SampleContext& context, Base base) {
  const SampleAssessment& f = context.figures;
  const double change = f.post_l_min - f.pre_l_min;
  if (base == Base::by_practice) return number_value(f.drift, change);
  return number_value(drift(f.pre_l_min, f.post_l_min, drift_base_of(base), f.nominal_l_min), change);
}

MeasureValue farthest_in_field(const SampleAssessment& f, double from_l_min) {
  const ReadingSet* set = farthest_field_set(f, from_l_min);
  if (set == nullptr) return {};
  const double difference = set->flow.mean - from_l_min;
  return number_value(difference / from_l_min, difference);
}

MeasureValue is_known(const SampleContext& context, Selector of) {
  if (context.words == nullptr) return {};
  const TextId word = context.words->written(of, context.figures.sample);
  if (word == 0) return {};
  return yes_no_value(!context.words->is_unknown(of, word) || rules_left_out(context, of).empty());
}

MeasureValue spread(const ReadingSet* set) {
  return set == nullptr ? MeasureValue{} : number_value(set->flow.relative_s(), set->flow.s);
}

double worse(double a, double b) { return std::fmax(a, b); }  // passes over a missing one

MeasureValue fault(const SampleContext& context) {
  const YesNo said = field(context.basis.book.samples.fault, context.figures.sample, YesNo::unsaid);
  return said == YesNo::unsaid ? MeasureValue{} : yes_no_value(said == YesNo::yes);
}

MeasureValue same_calibrator(const SampleAssessment& f) {
  if (f.pre < 0 || f.post < 0) return {};
  return yes_no_value(f.pre_set()->rows.calibrator == f.post_set()->rows.calibrator);
}

MeasureValue certificate_missing(const SampleAssessment& f) {
  if (f.sets.empty()) return {};
  return yes_no_value(
      std::any_of(f.sets.begin(), f.sets.end(), [](const ReadingSet& set) { return set.lacks_certificate; }));
}

// Where the rotameters of the counting sets are read; "top" speaks before "centre".
MeasureValue read_at(const SampleContext& context) {
  MeasureValue value;
  for (const ReadingSet* set : {context.figures.pre_set(), context.figures.post_set()}) {
    if (set == nullptr || set->rows.calibrator == no_row) continue;
    const Instrument& calibrator = context.basis.book.instruments[set->rows.calibrator];
    if (calibrator.principle != Principle::rotameter || calibrator.read_at == ReadAt::unknown) continue;
    if (value.word.empty() || calibrator.read_at == ReadAt::top) value.word = to_text(calibrator.read_at);
  }
  return value;
}

MeasureValue worst_of_sets(const SampleAssessment& f, double ReadingSet::*figure) {
  double worst = missing;
  for (const ReadingSet& set : f.sets) worst = worse(worst, set.*figure);
  return number_value(worst);
}

MeasureValue range_of(const BeyondRange& beyond) { return number_value(beyond.ratio, beyond.l_min); }

MeasureValue farthest_out(const SampleAssessment& f) {
  BeyondRange farthest;
  for (const ReadingSet& set : f.sets) {
    farthest.ratio = worse(farthest.ratio, set.beyond_range.ratio);
    farthest.l_min = worse(farthest.l_min, set.beyond_range.l_min);
  }
  return range_of(farthest);
}

// Between the set and the sample that leans on it; readings taken while it ran have no age.
MeasureValue age_of(const SampleContext& context, const SetRows& set) {
  const SampleTable& samples = context.basis.book.samples;
  const Row sample = context.figures.sample;
  switch (set.stage) {
    case Stage::pre:
      return number_value(minutes_between(set.last, samples.started[sample]));
    case Stage::post:
      return number_value(minutes_between(samples.stopped[sample], set.first));
    case Stage::field:
      break;
  }
  return {};
}

double actual_flow(const AssessmentBasis& basis, Row reading) {
  return basis.calibrators.correct(reading, basis.practice.correction).actual_l_min;
}

MeasureValue volume_uncertainty(const SampleContext& context) {
  if (context.budget == nullptr) return {};
  const double expanded = context.budget->about(BudgetFigure::volume).expanded;
  return number_value(expanded / context.figures.measured_volume_l, expanded);
}

// U = 2u of the certificates at the sets' indications, the larger.
MeasureValue calibrator_uncertainty(const SampleContext& context) {
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

}  // namespace

double field_base(const SampleAssessment& f, Base base) {
  if (base == Base::by_practice) return f.pre_l_min;
  return base_flow(f.pre_l_min, f.post_l_min, drift_base_of(base), f.nominal_l_min);
}

const ReadingSet* farthest_field_set(const SampleAssessment& f, double from_l_min) {
  const ReadingSet* farthest = nullptr;
  const auto distance = [from_l_min](const ReadingSet& set) { return std::abs(set.flow.mean - from_l_min); };
  for (const ReadingSet& set : f.sets) {
    if (set.rows.stage != Stage::field || is_missing(distance(set))) continue;
    if (farthest == nullptr || distance(set) > distance(*farthest)) farthest = &set;
  }
  return farthest;
}

DriftBase drift_base_of(Base named) { return static_cast<DriftBase>(static_cast<int>(named) - 1); }

MeasureValue sample_measure(const SampleContext& context, SampleMeasure measure, Base base) {
  const SampleAssessment& f = context.figures;
  const SampleTable& samples = context.basis.book.samples;
  switch (measure) {
    case SampleMeasure::drift:
      return drift_on(context, base);
    case SampleMeasure::flow:
      return number_value(f.flow_l_min);
    case SampleMeasure::flow_deviation:
      return difference(f, f.mean_flow_l_min, base, f.nominal_l_min);
    case SampleMeasure::pre_flow:
      return number_value(f.pre_l_min);
    case SampleMeasure::post_flow:
      return number_value(f.post_l_min);
    case SampleMeasure::pre_deviation:
      return difference(f, f.pre_l_min, base, f.nominal_l_min);
    case SampleMeasure::post_deviation:
      return difference(f, f.post_l_min, base, f.nominal_l_min);
    case SampleMeasure::pre_count:
      return count(f.pre_set());
    case SampleMeasure::post_count:
      return count(f.post_set());
    case SampleMeasure::pre_rsd:
      return spread(f.pre_set());
    case SampleMeasure::post_rsd:
      return spread(f.post_set());
    case SampleMeasure::field_count:
      return number_value(static_cast<double>(f.field_count()));
    case SampleMeasure::field_deviation:
      return farthest_in_field(f, field_base(f, base));
    case SampleMeasure::minutes:
      return number_value(f.minutes);
    case SampleMeasure::paused:
      return number_value(f.paused_min);
    case SampleMeasure::volume:
      return number_value(f.volume_l);
    case SampleMeasure::volume_reference:
      return number_value(f.volume_reference_l);
    case SampleMeasure::volume_uncertainty:
      return volume_uncertainty(context);
    case SampleMeasure::warm_up:
      return number_value(field(samples.warm_up_min, f.sample));
    case SampleMeasure::pre_age:
      return number_value(f.pre_age_min);
    case SampleMeasure::post_age:
      return number_value(f.post_age_min);
    case SampleMeasure::temperature_change:
      return number_value(f.temperature_change_k);
    case SampleMeasure::pressure_change:
      return number_value(f.pressure_change_kpa / field(samples.pressure_kpa, f.sample), f.pressure_change_kpa);
    case SampleMeasure::overlap:
      return number_value(context.overlap_min);
    case SampleMeasure::fault:
      return fault(context);
    case SampleMeasure::calibrator_overdue:
      return worst_of_sets(f, &ReadingSet::overdue_min);
    case SampleMeasure::calibrator_range:
      return farthest_out(f);
    case SampleMeasure::calibrator_same:
      return same_calibrator(f);
    case SampleMeasure::calibrator_read_at:
      return read_at(context);
    case SampleMeasure::certificate_missing:
      return certificate_missing(f);
    case SampleMeasure::cut_shift:
      return number_value(f.cut_shift);
    case SampleMeasure::calibrator_uncertainty:
      return calibrator_uncertainty(context);
    case SampleMeasure::field_nominal_deviation:
      return farthest_in_field(f, f.nominal_l_min);
    case SampleMeasure::sampler_known:
      return is_known(context, Selector::sampler);
    case SampleMeasure::method_known:
      return is_known(context, Selector::method);
    case SampleMeasure::analysis_known:
      return is_known(context, Selector::analysis);
    case SampleMeasure::record_uncertainty:
      return yes_no_value(!is_missing(volume_uncertainty(context).figure));
    default:
      return record_measure(context, measure);
  }
}

MeasureValue set_measure(const SampleContext& context, const ReadingSet& set, SetMeasure measure, Base base) {
  const SampleAssessment& f = context.figures;
  switch (measure) {
    case SetMeasure::count:
      return count(&set);
    case SetMeasure::rsd:
      return spread(&set);
    case SetMeasure::range:
      return number_value(set.flow.range() / set.flow.mean, set.flow.range());
    case SetMeasure::flow:
      return number_value(set.flow.mean);
    case SetMeasure::flow_deviation:
      return difference(f, set.flow.mean, base, f.nominal_l_min);
    case SetMeasure::duration:
      return number_value(static_cast<double>(set.rows.last - set.rows.first) / 60);
    case SetMeasure::age:
      return age_of(context, set.rows);
    case SetMeasure::count_:
      break;
  }
  return {};
}

MeasureValue reading_measure(const SampleContext& context, const ReadingSet& set, Row reading, ReadingMeasure measure) {
  const AssessmentBasis& basis = context.basis;
  const ReadingTable& readings = basis.book.readings;
  const double indicated = readings.indicated_l_min[reading];
  bool unused = false;
  switch (measure) {
    case ReadingMeasure::indicated:
      return number_value(indicated);
    case ReadingMeasure::actual:
      return number_value(actual_flow(basis, reading));
    case ReadingMeasure::correction: {
      const double change = actual_flow(basis, reading) - indicated;
      return number_value(change / indicated, change);
    }
    case ReadingMeasure::range:
      return range_of(beyond_range(basis.book.instruments[set.rows.calibrator], indicated));
    case ReadingMeasure::temperature:
      return number_value(field(readings.temperature_k, reading));
    case ReadingMeasure::pressure:
      return number_value(basis.calibrators.pressure_kpa(reading, unused));
    case ReadingMeasure::humidity:
      return number_value(field(readings.humidity, reading));
    case ReadingMeasure::count_:
      break;
  }
  return {};
}

}  // namespace driftwarden

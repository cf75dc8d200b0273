// SPDX-License-Identifier: MIT
#include "verdict/measured.hpp"

#include <cmath>

#include "assessment/drift.hpp"
#include "assessment/sampled_volume.hpp"
#include "rule/measure_catalogue.hpp"
#include "verdict/sample_figures.hpp"

namespace driftwarden {
namespace {

// Between the set and the sample that leans on it; readings taken while it ran have no age.
MeasureValue age_of(const SampleContext& context, const ReadingSet& of, Base) {
  const SetRows& set = of.rows;
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

MeasureValue set_count(const SampleContext&, const ReadingSet& set, Base) { return count_of(&set); }

MeasureValue set_rsd(const SampleContext&, const ReadingSet& set, Base) { return spread_of(&set); }

MeasureValue set_range(const SampleContext&, const ReadingSet& set, Base) {
  return number_value(set.flow.range() / set.flow.mean, set.flow.range());
}

MeasureValue set_flow(const SampleContext&, const ReadingSet& set, Base) { return number_value(set.flow.mean); }

MeasureValue set_deviation(const SampleContext& context, const ReadingSet& set, Base base) {
  return difference(context.figures, set.flow.mean, base, context.figures.nominal_l_min);
}

MeasureValue duration(const SampleContext&, const ReadingSet& set, Base) {
  return number_value(static_cast<double>(set.rows.last - set.rows.first) / 60);
}

double indicated_flow(const SampleContext& context, Row reading) {
  return context.basis.book.readings.indicated_l_min[reading];
}

MeasureValue indicated(const SampleContext& context, const ReadingSet&, Row reading) {
  return number_value(indicated_flow(context, reading));
}

double actual_flow(const SampleContext& context, Row reading) {
  return context.basis.calibrators.correct(reading, context.basis.practice.correction).actual_l_min;
}

MeasureValue actual(const SampleContext& context, const ReadingSet&, Row reading) {
  return number_value(actual_flow(context, reading));
}

MeasureValue correction(const SampleContext& context, const ReadingSet&, Row reading) {
  const double change = actual_flow(context, reading) - indicated_flow(context, reading);
  return number_value(change / indicated_flow(context, reading), change);
}

MeasureValue range(const SampleContext& context, const ReadingSet& set, Row reading) {
  const Instrument& calibrator = context.basis.book.instruments[set.rows.calibrator];
  return range_of(beyond_range(calibrator, indicated_flow(context, reading)));
}

MeasureValue temperature(const SampleContext& context, const ReadingSet&, Row reading) {
  return number_value(field(context.basis.book.readings.temperature_k, reading));
}

MeasureValue pressure(const SampleContext& context, const ReadingSet&, Row reading) {
  bool unused = false;
  return number_value(context.basis.calibrators.pressure_kpa(reading, unused));
}

MeasureValue humidity(const SampleContext& context, const ReadingSet&, Row reading) {
  return number_value(field(context.basis.book.readings.humidity, reading));
}

// How a measure of a set, and of a reading, is had; the rest of it stands in rule/measure_catalogue.
struct SetFigure {
  SetMeasure measure;
  MeasureValue (*value)(const SampleContext& context, const ReadingSet& set, Base base);
  KnownTo (SampleKnowledge::*known)(const ReadingSet& set) const = nullptr;
};

struct ReadingFigure {
  ReadingMeasure measure;
  MeasureValue (*value)(const SampleContext& context, const ReadingSet& set, Row reading);
  KnownTo (SampleKnowledge::*known)(Row reading) const = nullptr;
};

constexpr SetFigure set_figures[] = {
    {SetMeasure::count, set_count},
    {SetMeasure::rsd, set_rsd},
    {SetMeasure::range, set_range},
    {SetMeasure::flow, set_flow, &SampleKnowledge::flow_of_set},
    {SetMeasure::flow_deviation, set_deviation, &SampleKnowledge::deviation_of_set},
    {SetMeasure::duration, duration},
    {SetMeasure::age, age_of},
};
#ifndef __SANITIZE_ADDRESS__  // with undefined behaviour watched, g++ 12 takes no function's address for a constant
static_assert(are_complete(set_figures, catalogue::set_measures));
#endif

constexpr ReadingFigure reading_figures[] = {
    {ReadingMeasure::indicated, indicated},
    {ReadingMeasure::actual, actual},
    {ReadingMeasure::correction, correction},
    {ReadingMeasure::range, range},
    {ReadingMeasure::temperature, temperature, &SampleKnowledge::temperature},
    {ReadingMeasure::pressure, pressure, &SampleKnowledge::pressure},
    {ReadingMeasure::humidity, humidity},
};
#ifndef __SANITIZE_ADDRESS__  // with undefined behaviour watched, g++ 12 takes no function's address for a constant
static_assert(are_complete(reading_figures, catalogue::reading_measures));
#endif

const SetFigure& figure_of(SetMeasure measure) { return set_figures[static_cast<std::size_t>(measure)]; }
const ReadingFigure& figure_of(ReadingMeasure measure) { return reading_figures[static_cast<std::size_t>(measure)]; }

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

// The bases that a rule may name are those of the practice, behind one for none.
static_assert(static_cast<int>(Base::pre) == static_cast<int>(DriftBase::pre) + 1 &&
              static_cast<int>(Base::nominal) == static_cast<int>(DriftBase::nominal) + 1);
DriftBase drift_base_of(Base named) { return static_cast<DriftBase>(static_cast<int>(named) - 1); }

MeasureValue sample_measure(const SampleContext& context, SampleMeasure measure, Base base) {
  return figure_of(measure).value(context, base);
}

MeasureValue set_measure(const SampleContext& context, const ReadingSet& set, SetMeasure measure, Base base) {
  return figure_of(measure).value(context, set, base);
}

MeasureValue reading_measure(const SampleContext& context, const ReadingSet& set, Row reading, ReadingMeasure measure) {
  return figure_of(measure).value(context, set, reading);
}

std::string own_words(const SampleContext& context, SampleMeasure measure, const Texts& texts) {
  const SampleFigure& figure = figure_of(measure);
  return figure.own_words == nullptr ? "" : figure.own_words(context, texts);
}

bool concerns(const SampleContext& context, SampleMeasure measure, const ReadingSet& set) {
  const SampleFigure& figure = figure_of(measure);
  return figure.concerns == nullptr || figure.concerns(context, set);
}

std::vector<Place> lacking_lines(const SampleContext& context, SampleMeasure measure) {
  const SampleFigure& figure = figure_of(measure);
  RecordLook look;
  if (figure.look != nullptr) figure.look(context, look);
  return look.lines(context.basis.book);
}

KnownTo known_to(const Rule& rule, const SampleContext& context, const ReadingSet* set, Row reading) {
  if (measure_of(rule).knowledge != Knowledge::stated) return {};
  const SampleKnowledge knowledge(rule, context);
  switch (rule.of) {
    case Subject::sample:
      return (knowledge.*figure_of(static_cast<SampleMeasure>(rule.measure)).known)();
    case Subject::set:
      return (knowledge.*figure_of(static_cast<SetMeasure>(rule.measure)).known)(*set);
    case Subject::reading:
      return (knowledge.*figure_of(static_cast<ReadingMeasure>(rule.measure)).known)(reading);
    case Subject::calibrator:
    case Subject::pump:
    case Subject::batch:
    case Subject::result:  // verdict/result_figures
      break;
  }
  return {};
}

}  // namespace driftwarden

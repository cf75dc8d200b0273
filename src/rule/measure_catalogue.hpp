// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

#include "record/instrument.hpp"
#include "rule/measure.hpp"

// The catalogue of measures: everything about a measure but how its figure is had (of a sample: verdict/sample_figures;
// of a set or reading: verdict/measured; of a result: verdict/result_figures; of the others: verdict/subjects) and its
// sentences (rule/english). Whatever is left out of a row, or stands in another order than the enumeration, does not
// compile.
namespace driftwarden::catalogue {

inline constexpr std::string_view counted = "counted";
inline constexpr std::string_view as_written = "compared as it was written";
inline constexpr std::string_view between_times = "between times as they were written";
inline constexpr std::string_view of_the_records = "as recorded";
inline constexpr std::string_view of_the_budget = "by the sample's budget";
inline constexpr std::string_view of_its_set = "by the inputs of the budget that act on the set";
inline constexpr std::string_view is_a_spread =
    "it describes the scatter of the readings that were taken, and no true scatter";
inline constexpr std::string_view one_reading =
    "one reading does not tell its own scatter; the flow of its set has a u";
inline constexpr std::string_view is_a_model = "of what a model leaves out nobody has a standard deviation";
inline constexpr std::string_view hang_together = "uses of one pump are not independent of each other";

constexpr Measure measure(auto number, std::string_view name, MeasureKind kind, std::string_view definition) {
  Measure measure;
  measure.name = name;
  measure.of = subject_of(number);
  measure.number = static_cast<std::size_t>(number);
  measure.kind = kind;
  measure.definition = definition;
  return measure;
}
constexpr Measure number(auto number, std::string_view name, Dimension dimension, std::string_view unit,
                         std::string_view definition) {
  Measure measure = catalogue::measure(number, name, MeasureKind::number, definition);
  measure.dimension = dimension;
  measure.unit = unit;
  return measure;
}
constexpr Measure percentage(auto number, std::string_view name, std::string_view definition) {
  return catalogue::number(number, name, Dimension::ratio, "%", definition);
}
// A difference of flows: relative to a base that may be named, or absolute.
constexpr Measure flow_difference(auto number, std::string_view name, std::string_view definition) {
  Measure measure = percentage(number, name, definition).or_absolute(Dimension::flow).about_the_flow();
  measure.has_base = true;
  return measure;
}
constexpr Measure yes_no(auto number, std::string_view name, std::string_view definition) {
  return measure(number, name, MeasureKind::yes_no, definition).exact(of_the_records);
}
constexpr Measure record(auto number, std::string_view name, std::string_view definition) {
  return yes_no(number, name, definition).about_records();
}
constexpr Measure word(auto number, std::string_view name, std::span<const std::string_view> words,
                       std::string_view definition) {
  Measure measure = catalogue::measure(number, name, MeasureKind::word, definition).exact(of_the_records);
  measure.words = words;
  return measure;
}

inline constexpr LeansOn the_sample{.sample = true};
inline constexpr LeansOn pre_set{.pre = true};
inline constexpr LeansOn post_set{.post = true};
inline constexpr LeansOn field_sets{.field = true};
inline constexpr LeansOn both_sets{.pre = true, .post = true};
inline constexpr LeansOn pre_and_field{.pre = true, .field = true};
inline constexpr LeansOn sample_and_pre{.sample = true, .pre = true};
inline constexpr LeansOn sample_and_post{.sample = true, .post = true};
inline constexpr LeansOn sample_and_sets{.sample = true, .pre = true, .post = true};
inline constexpr LeansOn sample_and_all_sets{.sample = true, .pre = true, .post = true, .field = true};

inline constexpr Measure sample_measures[] = {
    flow_difference(SampleMeasure::drift, "drift",
                    "change of flow over the sample: (post - pre) / base, of the means of the corrected readings; the "
                    "base is the pre flow unless a rule or a practice names another")
        .stated(of_the_budget, both_sets),
    number(SampleMeasure::flow, "flow", Dimension::flow, "L/min",
           "flow that the volume is formed with, at the conditions of sampling: mean of pre and post flow, or as the "
           "practice flow_for_volume says")
        .about_the_flow()
        .stated(of_the_budget, sample_and_sets),
    flow_difference(
        SampleMeasure::flow_deviation, "flow.deviation",
        "(mean flow - nominal) / nominal: the mean flow as measured, whatever flow the volume is formed with")
        .from_nominal_flow()
        .stated(of_the_budget, sample_and_sets),
    number(SampleMeasure::pre_flow, "pre.flow", Dimension::flow, "L/min",
           "mean of the corrected readings of the pre set")
        .about_the_flow()
        .stated(of_its_set, pre_set),
    number(SampleMeasure::post_flow, "post.flow", Dimension::flow, "L/min",
           "mean of the corrected readings of the post set")
        .about_the_flow()
        .stated(of_its_set, post_set),
    flow_difference(SampleMeasure::pre_deviation, "pre.deviation", "(pre flow - nominal) / nominal")
        .from_nominal_flow()
        .stated(of_its_set, sample_and_pre),
    flow_difference(SampleMeasure::post_deviation, "post.deviation", "(post flow - nominal) / nominal")
        .from_nominal_flow()
        .stated(of_its_set, sample_and_post),
    number(SampleMeasure::pre_count, "pre.count", Dimension::count, "", "readings of the pre set that are not void")
        .exact(counted, pre_set),
    number(SampleMeasure::post_count, "post.count", Dimension::count, "", "readings of the post set that are not void")
        .exact(counted, post_set),
    percentage(SampleMeasure::pre_rsd, "pre.rsd",
               "standard deviation (divisor n - 1) of the pre set's corrected readings, relative to their mean; "
               "missing below two readings")
        .or_absolute(Dimension::flow)
        .not_stated(is_a_spread, pre_set),
    percentage(SampleMeasure::post_rsd, "post.rsd",
               "standard deviation (divisor n - 1) of the post set's corrected readings, relative to their mean; "
               "missing below two readings")
        .or_absolute(Dimension::flow)
        .not_stated(is_a_spread, post_set),
    number(SampleMeasure::field_count, "field.count", Dimension::count, "",
           "readings during sampling that are not void")
        .exact(counted, field_sets),
    flow_difference(SampleMeasure::field_deviation, "field.deviation",
                    "the largest (field reading - base) / base in size, with its sign; of the means of the field sets; "
                    "the base is the pre flow unless a rule names another")
        .stated("by the inputs of the budget that act on the pre and the field set", pre_and_field),
    number(SampleMeasure::minutes, "minutes", Dimension::time, "min", "time sampled: stopped - started - paused")
        .stated("by [uncertainty] time, of start and stop", the_sample),
    number(SampleMeasure::paused, "paused", Dimension::time, "min", "time the pump was paused, as written")
        .not_stated("the book gives no half-width of a pause", the_sample),
    number(SampleMeasure::volume, "volume", Dimension::volume, "L", "flow × minutes, at the conditions of sampling")
        .stated(of_the_budget, sample_and_sets),
    number(SampleMeasure::volume_reference, "volume.reference", Dimension::volume, "L",
           "the volume at the book's reference conditions")
        .stated(of_the_budget, sample_and_sets),
    percentage(SampleMeasure::volume_uncertainty, "volume.uncertainty",
               "expanded uncertainty (95 %) of the volume as measured, relative to it")
        .or_absolute(Dimension::volume)
        .not_stated("it is an uncertainty itself", sample_and_sets),
    number(SampleMeasure::warm_up, "warm-up", Dimension::time, "min",
           "time the pump ran before its flow was read, as written")
        .exact(as_written, the_sample),
    number(
        SampleMeasure::vacuum, "vacuum", Dimension::pressure, "kPa",
        "how far below the pressure of the air that behind the sampler was, as written: what keeps a critical orifice "
        "choked")
        .exact(as_written, the_sample),
    number(SampleMeasure::leak, "leak", Dimension::flow, "L/min",
           "flow that came in elsewhere than through the inlet when the sampler was tested for leaks, as written")
        .exact(as_written, the_sample),
    number(SampleMeasure::interruptions, "interruptions", Dimension::count, "",
           "how often the sampler stopped and went on again within the sample, as written")
        .exact(as_written, the_sample),
    number(SampleMeasure::pressure_drop, "pressure-drop", Dimension::pressure, "kPa",
           "how far the pressure fell over the sampler with its medium when the flow was set, as written")
        .exact(as_written, the_sample),
    percentage(
        SampleMeasure::pulsation, "pulsation",
        "how far the flow of the pump swung to either side of its mean within a stroke, relative to it, as written")
        .exact(as_written, the_sample),
    number(SampleMeasure::pre_age, "pre.age", Dimension::time, "h", "time from the pre set to the start")
        .exact(between_times, sample_and_pre),
    number(SampleMeasure::post_age, "post.age", Dimension::time, "h", "time from the stop to the post set")
        .exact(between_times, sample_and_post),
    number(SampleMeasure::temperature_change, "temperature.change", Dimension::temperature_difference, "K",
           "the largest (temperature of a set - temperature of the sample) in size, with its sign")
        .stated("by [uncertainty] temperature, at the set and while sampling", sample_and_sets),
    percentage(
        SampleMeasure::pressure_change, "pressure.change",
        "the largest (pressure of a set - pressure of the sample) / pressure of the sample in size, with its sign")
        .or_absolute(Dimension::pressure)
        .stated("by [uncertainty] pressure and altitude_pressure, at the set and while sampling", sample_and_sets),
    number(SampleMeasure::overlap, "overlap", Dimension::time, "min",
           "time shared with another sample on the same pump")
        .exact(between_times, the_sample),
    yes_no(SampleMeasure::fault, "fault",
           "whether anything was seen that spoils the sample: pump stopped, inlet obstructed")
        .leaning_on(the_sample),
    number(SampleMeasure::calibrator_overdue, "calibrator.overdue", Dimension::time, "d",
           "days from the day the calibrator's certificate was due to the day of the reading, the larger of its sets; "
           "0 or less: in date")
        .exact("counted in days", sample_and_all_sets),
    percentage(SampleMeasure::calibrator_range, "calibrator.range",
               "how far a reading lies outside its calibrator's range, relative to the nearer end; 0 inside it")
        .or_absolute(Dimension::flow)
        .exact("the display against the range as it was written", sample_and_all_sets),
    yes_no(SampleMeasure::calibrator_same, "calibrator.same", "whether pre and post set were read with one calibrator")
        .leaning_on(sample_and_sets),
    word(SampleMeasure::calibrator_read_at, "calibrator.read-at", read_at_words,
         "where on the float the rotameters of the pre and post set were read; missing where there was no rotameter or "
         "nobody said")
        .leaning_on(sample_and_sets),
    yes_no(SampleMeasure::certificate_missing, "certificate.missing",
           "whether a reading has no certificate in force on its day")
        .leaning_on(sample_and_all_sets),
    percentage(
        SampleMeasure::cut_shift, "cut.shift",
        "change of the 50 % cut size at the mean flow as measured: d50 / d50 at the nominal flow - 1, by the law "
        "of its cut, which needs no d50 where only its exponent is stated; missing where nobody states how the "
        "cut goes with the flow, or either flow lies outside those that the law was found over")
        .about_the_cut(CutPart::law)
        .stated("by the u of the flow, the law of the cut taken as exact", sample_and_sets),
    number(
        SampleMeasure::cut_size, "cut.size", Dimension::diameter, "µm",
        "50 % cut size of the sampler at the mean flow as measured, by the law of its cut; missing where its curve or "
        "its exponent is not stated, or this flow or the nominal one lies outside those that the law was found over")
        .about_the_cut(CutPart::curve)
        .stated("by the u of the flow, the law of the cut taken as exact", sample_and_sets),
    percentage(SampleMeasure::mass_shift_actual, "mass.shift.actual",
               "by the model of its sampler's cut, how far the concentration by the actual volume is off for the mean "
               "flow as measured, against the sampler at its nominal flow; of several aerosols the end of the range "
               "farther from 0; missing where cut.size is")
        .about_the_cut(CutPart::curve)
        .not_stated(is_a_model, sample_and_sets),
    percentage(SampleMeasure::mass_shift_nominal, "mass.shift.nominal",
               "by the same model, how far the concentration by the nominal volume is off, and with it the mass on the "
               "filter; of several aerosols the end of the range farther from 0; missing where cut.size is")
        .about_the_cut(CutPart::curve)
        .not_stated(is_a_model, sample_and_sets),
    percentage(
        SampleMeasure::mass_bias, "mass.bias",
        "by the same model, how far the concentration by the volume that is formed lies from the convention that "
        "the sampler's fraction names (ISO 7708, EN 481); of several aerosols the end of the range farther from "
        "0; missing where cut.size is, and where the fraction is no convention")
        .about_the_cut(CutPart::convention)
        .not_stated(is_a_model, sample_and_sets),
    percentage(
        SampleMeasure::calibrator_uncertainty, "calibrator.uncertainty",
        "expanded uncertainty (k = 2) of the calibrator at the reading, from its certificate, relative; the larger of "
        "its sets. Held against a quarter of the tolerance it judges, it is a test uncertainty ratio of 4")
        .exact("what the certificate states", sample_and_sets),
    record(SampleMeasure::record_pump_serial, "record.pump-serial",
           "whether the pump's serial number is written down; missing without a pump")
        .leaning_on(the_sample),
    record(SampleMeasure::record_by, "record.by",
           "whether every reading of its sets says who took it; missing without readings")
        .leaning_on(sample_and_sets),
    record(SampleMeasure::record_conditions, "record.conditions",
           "whether every reading of its sets gives temperature and pressure; missing without readings")
        .leaning_on(sample_and_sets),
    record(SampleMeasure::record_sampling_conditions, "record.sampling-conditions",
           "whether the sample gives its own temperature and pressure")
        .leaning_on(the_sample),
    record(SampleMeasure::record_calibrator_serial, "record.calibrator-serial",
           "whether the serial number of every calibrator of its sets is written down; missing without readings")
        .leaning_on(sample_and_sets),
    record(
        SampleMeasure::record_certificate_uncertainty, "record.certificate-uncertainty",
        "whether the certificates its sets lean on state an uncertainty at every point; missing where none is in force")
        .leaning_on(sample_and_sets),
    record(SampleMeasure::record_certificate_issuer, "record.certificate-issuer",
           "whether the certificates its sets lean on say who issued them; missing where none is in force")
        .leaning_on(sample_and_sets),
    record(SampleMeasure::record_certificate_standard, "record.certificate-standard",
           "whether the certificates its sets lean on say what they were made against; missing where none is in force")
        .leaning_on(sample_and_sets),
    record(SampleMeasure::record_chain, "record.chain",
           "whether from each calibrator of its sets certificates lead from standard to standard without a gap to one "
           "outside the book: each in force, with issuer and uncertainty; missing without readings")
        .leaning_on(sample_and_sets),
    record(SampleMeasure::record_void_reasons, "record.void-reasons",
           "whether every void reading of its sets carries a note that says why; missing where none is void")
        .leaning_on(sample_and_sets),
    record(SampleMeasure::record_method, "record.method", "whether the sample names its method").leaning_on(the_sample),
    record(SampleMeasure::record_fault, "record.fault", "whether anybody said, yes or no, that a fault was seen")
        .leaning_on(the_sample),
    record(SampleMeasure::record_uncertainty, "record.uncertainty",
           "whether the records suffice to state an uncertainty of the volume")
        .leaning_on(sample_and_sets),
    percentage(SampleMeasure::field_nominal_deviation, "field.nominal-deviation",
               "the largest (field reading - nominal) / nominal in size, with its sign; of the means of the field sets")
        .or_absolute(Dimension::flow)
        .about_the_flow()
        .from_nominal_flow()
        .stated("by the inputs of the budget that act on the field set", field_sets),
    yes_no(SampleMeasure::sampler_known, "sampler.known",
           "whether a pack, book.toml or a rule speaks of the sampler that is written, as far as a rule leans on it; "
           "missing where none is written")
        .leaning_on(the_sample),
    yes_no(SampleMeasure::method_known, "method.known",
           "whether a pack, book.toml or a rule speaks of the method that is written, as far as a rule leans on it; "
           "missing where none is written")
        .leaning_on(the_sample),
    yes_no(SampleMeasure::analysis_known, "analysis.known",
           "whether a pack, book.toml or a rule speaks of the analysis that is written, as far as a rule leans on it; "
           "missing where none is written")
        .leaning_on(the_sample),
};

inline constexpr Measure set_measures[] = {
    number(SetMeasure::count, "count", Dimension::count, "", "readings of the set that are not void").exact(counted),
    percentage(SetMeasure::rsd, "rsd",
               "standard deviation (divisor n - 1) of the corrected readings, relative to their mean; missing below "
               "two readings")
        .or_absolute(Dimension::flow)
        .not_stated(is_a_spread),
    percentage(SetMeasure::range, "range", "largest corrected reading - smallest, relative to their mean")
        .or_absolute(Dimension::flow)
        .not_stated(is_a_spread),
    number(SetMeasure::flow, "flow", Dimension::flow, "L/min", "mean of the corrected readings")
        .about_the_flow()
        .stated(of_its_set),
    flow_difference(SetMeasure::flow_deviation, "flow.deviation", "(flow - nominal) / nominal")
        .from_nominal_flow()
        .stated(of_its_set),
    number(SetMeasure::duration, "duration", Dimension::time, "min", "time from the first to the last reading")
        .exact(between_times),
    number(SetMeasure::age, "age", Dimension::time, "h",
           "time between the set and the sample that leans on it, the longest if many")
        .exact(between_times),
};

inline constexpr Measure reading_measures[] = {
    number(ReadingMeasure::indicated, "indicated", Dimension::flow, "L/min", "flow as the calibrator showed it")
        .exact("as displayed"),
    number(ReadingMeasure::actual, "actual", Dimension::flow, "L/min",
           "corrected flow at the conditions of the reading")
        .not_stated(one_reading),
    percentage(ReadingMeasure::correction, "correction", "(actual - indicated) / indicated")
        .or_absolute(Dimension::flow)
        .not_stated(one_reading),
    percentage(ReadingMeasure::range, "range",
               "how far it lies outside its calibrator's range, relative to the nearer end; 0 inside it")
        .or_absolute(Dimension::flow)
        .exact("the display against the range as it was written"),
    number(ReadingMeasure::temperature, "temperature", Dimension::temperature, "°C", "temperature at the reading")
        .stated("by [uncertainty] temperature"),
    number(ReadingMeasure::pressure, "pressure", Dimension::pressure, "kPa", "absolute pressure at the reading")
        .stated("by [uncertainty] pressure, or altitude_pressure where it is the site's"),
    percentage(ReadingMeasure::humidity, "humidity", "relative humidity at the reading")
        .not_stated("the book gives no half-width of a humidity"),
};

inline constexpr Measure calibrator_measures[] = {
    number(CalibratorMeasure::due, "due", Dimension::time, "d",
           "days left until its certificate is due; negative: overdue")
        .exact("counted in days"),
    percentage(CalibratorMeasure::as_found_error, "as-found.error",
               "(as found - reference) / reference at the worst point of its newest certificate")
        .or_absolute(Dimension::flow)
        .stated("by the uncertainty of the certificate at that point"),
    number(CalibratorMeasure::age, "age", Dimension::time, "d", "days since its newest certificate")
        .exact("counted in days"),
    word(CalibratorMeasure::read_at, "read-at", read_at_words,
         "where on the float it is read; missing where nobody said"),
    record(CalibratorMeasure::record_as_found, "record.as-found",
           "whether its newest certificate says at every point what it showed as found, before any adjustment"),
};

inline constexpr Measure pump_measures[] = {
    percentage(PumpMeasure::drift_mean, "drift.mean", "mean of the drifts of its samples").not_stated(hang_together),
    percentage(PumpMeasure::drift_sd, "drift.sd", "standard deviation (divisor n - 1) of the drifts of its samples")
        .not_stated(hang_together),
    percentage(PumpMeasure::trend, "trend", "slope of its pre flow over time, in 7 days, relative to the mean pre flow")
        .not_stated(hang_together),
    percentage(PumpMeasure::void_share, "void.share", "void samples among its samples").exact(counted),
};

inline constexpr Measure batch_measures[] = {
    number(BatchMeasure::blanks, "blanks", Dimension::count, "", "blanks of the batch").exact(counted),
    percentage(BatchMeasure::blank_share, "blank.share", "blanks, relative to the samples that are not blanks")
        .exact(counted),
    percentage(BatchMeasure::void_share, "void.share", "void samples among the samples that are not blanks")
        .exact(counted),
    percentage(
        BatchMeasure::record_complete, "record.complete",
        "samples without a finding of a rule about a record (record.by and the like), among those that are not blanks")
        .exact(counted)
        .about_records(),
};

inline constexpr std::string_view of_laboratory = "by the laboratory's expanded uncertainty";
inline constexpr std::string_view of_its_parts =
    "by the laboratory's expanded uncertainty, the scatter of the blanks and the budget of the volume";

inline constexpr Measure result_measures[] = {
    number(
        ResultMeasure::mass, "mass", Dimension::mass, "mg",
        "what was found, before anything is taken off: as the laboratory states it, or weight after - weight before; "
        "missing where it is less than the laboratory's limit, and where fibres were counted")
        .stated(of_laboratory),
    number(
        ResultMeasure::mass_net, "mass.net", Dimension::mass, "mg",
        "mass less the blanks, as blank_correction says; missing where mass is, and where blanks are to be taken off "
        "and there are none")
        .stated("by the laboratory's expanded uncertainty and the scatter of the blanks"),
    yes_no(ResultMeasure::detected, "detected",
           "whether the amount, and what is left of it less the blanks, reaches the laboratory's limit; missing where "
           "it states none"),
    number(ResultMeasure::blank_count, "blank.count", Dimension::count, "",
           "field blanks of the sample's batch that have a result of the analyte")
        .exact(counted),
    percentage(ResultMeasure::blank_share, "blank.share",
               "those blanks, relative to the samples of the batch that have a result of the analyte")
        .exact(counted),
    number(ResultMeasure::blank_mean, "blank.mean", Dimension::mass, "mg",
           "mean of those blanks, what is less than the limit counted as nothing; missing without a blank, and where "
           "fibres were counted")
        .stated("by the scatter of the blanks, divided by the root of their number"),
    yes_no(
        ResultMeasure::blank_above_limit, "blank.above-limit",
        "whether in one of those blanks more was found than its limit; missing without a blank, and where it hangs on "
        "one whose limit is not stated"),
    number(ResultMeasure::concentration, "concentration", Dimension::concentration, "mg/m3",
           "mass.net in the volume of air, at the conditions that concentration_volume says; missing where it is less "
           "than the limit, and where fibres were counted")
        .stated(of_its_parts),
    percentage(ResultMeasure::concentration_uncertainty, "concentration.uncertainty",
               "expanded uncertainty (95 %) of the concentration, relative to it; of fibres, too")
        .not_stated("it is an uncertainty itself"),
    yes_no(ResultMeasure::balance_certificate_missing, "balance.certificate.missing",
           "whether the balance had no certificate in force on the day of a weight, before or after; missing where the "
           "medium was not weighed on a balance of instruments.csv, and where no day is on record"),
    number(ResultMeasure::balance_overdue, "balance.overdue", Dimension::time, "d",
           "days from the day the balance's certificate was due to the day of a weight, the larger of the two; 0 or "
           "less: in date")
        .exact("counted in days"),
    number(ResultMeasure::control_count, "control.count", Dimension::count, "",
           "control filters that were weighed with the sample's batch and analyte; missing where the sample was not "
           "weighed")
        .exact(counted),
    number(ResultMeasure::control_mean, "control.mean", Dimension::mass, "mg",
           "mean change of those control filters, weight after - weight before; missing without one")
        .stated("by the scatter of the control filters, divided by the root of their number")
        .a_difference(),
    number(ResultMeasure::control_change, "control.change", Dimension::mass, "mg",
           "the change of those control filters that is farthest from none; missing without one")
        .not_stated("no uncertainty of a control filter's weights is on record")
        .a_difference(),
};

// A row stands at its enumerator's place, says how well its figure is known, and of a sample also what it leans on.
template <class Number, std::size_t count>
constexpr bool is_complete(const Measure (&rows)[count]) {
  for (std::size_t i = 0; i < count; ++i) {
    const Measure& row = rows[i];
    const bool leans = row.leans_on.sample || row.leans_on.pre || row.leans_on.post || row.leans_on.field;
    if (row.number != i || row.of != subject_of(Number{}) || row.known_by.empty()) return false;
    if (row.definition.empty() || leans != (row.of == Subject::sample)) return false;
    if (row.is_about_records != row.name.starts_with("record.")) return false;
    const bool is_of_the_cut =
        row.of == Subject::sample && (row.name.starts_with("cut.") || row.name.starts_with("mass."));
    if ((row.of_the_cut != CutPart::nothing) != is_of_the_cut) return false;
  }
  return count == static_cast<std::size_t>(Number::count_);
}
static_assert(is_complete<SampleMeasure>(sample_measures));
static_assert(is_complete<SetMeasure>(set_measures));
static_assert(is_complete<ReadingMeasure>(reading_measures));
static_assert(is_complete<CalibratorMeasure>(calibrator_measures));
static_assert(is_complete<PumpMeasure>(pump_measures));
static_assert(is_complete<BatchMeasure>(batch_measures));
static_assert(is_complete<ResultMeasure>(result_measures));

}  // namespace driftwarden::catalogue

// SPDX-License-Identifier: MIT
#include "driftwarden/rule/measure.hpp"

#include <algorithm>
#include <iterator>

namespace driftwarden {

namespace {

using enum Subject;

constexpr std::string_view subject_words[] = {"sample", "set", "reading", "calibrator", "pump", "batch"};

constexpr Measure known(Knowledge knowledge, std::string_view by, Measure measure) {
  measure.knowledge = knowledge;
  measure.known_by = by;
  return measure;
}
constexpr Measure exact(std::string_view why, Measure measure) { return known(Knowledge::exact, why, measure); }
constexpr Measure stated(std::string_view from, Measure measure) { return known(Knowledge::stated, from, measure); }
constexpr Measure not_stated(std::string_view why, Measure measure) {
  return known(Knowledge::not_stated, why, measure);
}

constexpr std::string_view counted = "counted";
constexpr std::string_view as_written = "compared as it was written";
constexpr std::string_view between_times = "between times as they were written";
constexpr std::string_view of_the_records = "as recorded";
constexpr std::string_view of_the_budget = "by the sample's budget";
constexpr std::string_view of_its_set = "by the inputs of the budget that act on the set";
constexpr std::string_view is_a_spread =
    "it describes the scatter of the readings that were taken, and no true scatter";
constexpr std::string_view one_reading = "one reading does not tell its own scatter; the flow of its set has a u";
constexpr std::string_view hang_together = "uses of one pump are not independent of each other";

constexpr Measure number(Subject of, std::string_view name, Dimension dimension, std::string_view unit,
                         std::string_view definition) {
  return {name,         of, MeasureKind::number, dimension, definition, false, unit,
          std::nullopt, {}, Knowledge::exact,    {},        false};
}
constexpr Measure percentage(Subject of, std::string_view name, std::string_view definition) {
  return number(of, name, Dimension::ratio, "%", definition);
}
constexpr Measure yes_no(Subject of, std::string_view name, std::string_view definition) {
  return {name,         of, MeasureKind::yes_no, Dimension::count, definition, false, "",
          std::nullopt, {}, Knowledge::exact,    of_the_records,   false};
}
constexpr Measure word(Subject of, std::string_view name, std::span<const std::string_view> words,
                       std::string_view definition) {
  return {name,         of,    MeasureKind::word, Dimension::count, definition, false, "",
          std::nullopt, words, Knowledge::exact,  of_the_records,   false};
}

// A ratio whose limit may also be written as the difference behind it.
constexpr Measure or_absolute(Dimension absolute, Measure measure) {
  measure.absolute = absolute;
  return measure;
}
// A difference of flows: relative to a base that may be named, or absolute.
constexpr Measure flow_difference(Subject of, std::string_view name, std::string_view definition) {
  Measure measure = or_absolute(Dimension::flow, percentage(of, name, definition));
  measure.has_base = true;
  return measure;
}

// The same of a flow that is relative to the nominal flow unless a base is named.
constexpr Measure from_nominal(Measure measure) {
  measure.from_nominal = true;
  return measure;
}

constexpr Measure sample_measures[] = {
    stated(of_the_budget,
           flow_difference(
               sample, "drift",
               "change of flow over the sample: (post - pre) / base, of the means of the corrected readings; the "
               "base is the pre flow unless a rule or a practice names another")),
    stated(
        of_the_budget,
        number(
            sample, "flow", Dimension::flow, "L/min",
            "flow that the volume is formed with, at the conditions of sampling: mean of pre and post flow, or as the "
            "practice flow_for_volume says")),
    stated(of_the_budget, from_nominal(flow_difference(
                              sample, "flow.deviation",
                              "(mean flow - nominal) / nominal: the mean flow as measured, whatever flow the volume is "
                              "formed with"))),
    stated(of_its_set,
           number(sample, "pre.flow", Dimension::flow, "L/min", "mean of the corrected readings of the pre set")),
    stated(of_its_set,
           number(sample, "post.flow", Dimension::flow, "L/min", "mean of the corrected readings of the post set")),
    stated(of_its_set, from_nominal(flow_difference(sample, "pre.deviation", "(pre flow - nominal) / nominal"))),
    stated(of_its_set, from_nominal(flow_difference(sample, "post.deviation", "(post flow - nominal) / nominal"))),
    exact(counted, number(sample, "pre.count", Dimension::count, "", "readings of the pre set that are not void")),
    exact(counted, number(sample, "post.count", Dimension::count, "", "readings of the post set that are not void")),
    not_stated(is_a_spread,
               or_absolute(Dimension::flow,
                           percentage(sample, "pre.rsd",
                                      "standard deviation (divisor n - 1) of the pre set's corrected readings, "
                                      "relative to their mean; missing below two readings"))),
    not_stated(is_a_spread,
               or_absolute(Dimension::flow,
                           percentage(sample, "post.rsd",
                                      "standard deviation (divisor n - 1) of the post set's corrected readings, "
                                      "relative to their mean; missing below two readings"))),
    exact(counted, number(sample, "field.count", Dimension::count, "", "readings during sampling that are not void")),
    stated("by the inputs of the budget that act on the pre and the field set",
           flow_difference(
               sample, "field.deviation",
               "the largest (field reading - base) / base in size, with its sign; of the means of the field sets; "
               "the base is the pre flow unless a rule names another")),
    stated("by [uncertainty] time, of start and stop",
           number(sample, "minutes", Dimension::time, "min", "time sampled: stopped - started - paused")),
    not_stated("the book gives no half-width of a pause",
               number(sample, "paused", Dimension::time, "min", "time the pump was paused, as written")),
    stated(of_the_budget,
           number(sample, "volume", Dimension::volume, "L", "flow × minutes, at the conditions of sampling")),
    stated(of_the_budget,
           number(sample, "volume.reference", Dimension::volume, "L", "the volume at the book's reference conditions")),
    not_stated("it is an uncertainty itself",
               or_absolute(Dimension::volume,
                           percentage(sample, "volume.uncertainty",
                                      "expanded uncertainty (95 %) of the volume as measured, relative to it"))),
    exact(as_written,
          number(sample, "warm-up", Dimension::time, "min", "time the pump ran before its flow was read, as written")),
    exact(between_times, number(sample, "pre.age", Dimension::time, "h", "time from the pre set to the start")),
    exact(between_times, number(sample, "post.age", Dimension::time, "h", "time from the stop to the post set")),
    stated("by [uncertainty] temperature, at the set and while sampling",
           number(sample, "temperature.change", Dimension::temperature_difference, "K",
                  "the largest (temperature of a set - temperature of the sample) in size, with its sign")),
    stated("by [uncertainty] pressure and altitude_pressure, at the set and while sampling",
           or_absolute(
               Dimension::pressure,
               percentage(sample, "pressure.change",
                          "the largest (pressure of a set - pressure of the sample) / pressure of the sample in size, "
                          "with its sign"))),
    exact(between_times,
          number(sample, "overlap", Dimension::time, "min", "time shared with another sample on the same pump")),
    yes_no(sample, "fault", "whether anything was seen that spoils the sample: pump stopped, inlet obstructed"),
    exact(
        "counted in days",
        number(
            sample, "calibrator.overdue", Dimension::time, "d",
            "days from the day the calibrator's certificate was due to the day of the reading, the larger of its sets; "
            "0 or less: in date")),
    exact("the display against the range as it was written",
          or_absolute(Dimension::flow,
                      percentage(sample, "calibrator.range",
                                 "how far a reading lies outside its calibrator's range, relative to the nearer end; "
                                 "0 inside it"))),
    yes_no(sample, "calibrator.same", "whether pre and post set were read with one calibrator"),
    word(sample, "calibrator.read-at", float_levels,
         "where on the float the rotameters of the pre and post set were read; missing where there was no rotameter or "
         "nobody said"),
    yes_no(sample, "certificate.missing", "whether a reading has no certificate in force on its day"),
    stated("by the u of the flow, the exponent taken as exact",
           percentage(
               sample, "cut.shift",
               "change of the 50 % cut size at the mean flow as measured: (mean flow / nominal)^-n - 1, n being the "
               "sampler's cut exponent; missing without one")),
    exact(
        "what the certificate states",
        percentage(
            sample, "calibrator.uncertainty",
            "expanded uncertainty (k = 2) of the calibrator at the reading, from its certificate, relative; the larger "
            "of its sets. Held against a quarter of the tolerance it judges, it is a test uncertainty ratio of 4")),
    yes_no(sample, "record.pump-serial", "whether the pump's serial number is written down; missing without a pump"),
    yes_no(sample, "record.by", "whether every reading of its sets says who took it; missing without readings"),
    yes_no(sample, "record.conditions",
           "whether every reading of its sets gives temperature and pressure; missing without readings"),
    yes_no(sample, "record.sampling-conditions", "whether the sample gives its own temperature and pressure"),
    yes_no(sample, "record.calibrator-serial",
           "whether the serial number of every calibrator of its sets is written down; missing without readings"),
    yes_no(sample, "record.certificate-uncertainty",
           "whether the certificates its sets lean on state an uncertainty at every point; missing where none is in "
           "force"),
    yes_no(sample, "record.certificate-issuer",
           "whether the certificates its sets lean on say who issued them; missing where none is in force"),
    yes_no(sample, "record.certificate-standard",
           "whether the certificates its sets lean on say what they were made against; missing where none is in "
           "force"),
    yes_no(sample, "record.chain",
           "whether from each calibrator of its sets certificates lead from standard to standard without a gap to one "
           "outside the book: each in force, with issuer and uncertainty; missing without readings"),
    yes_no(sample, "record.void-reasons",
           "whether every void reading of its sets carries a note that says why; missing where none is void"),
    yes_no(sample, "record.method", "whether the sample names its method"),
    yes_no(sample, "record.fault", "whether anybody said, yes or no, that a fault was seen"),
    yes_no(sample, "record.uncertainty", "whether the records suffice to state an uncertainty of the volume"),
    stated("by the inputs of the budget that act on the field set",
           from_nominal(or_absolute(Dimension::flow,
                                    percentage(sample, "field.nominal-deviation",
                                               "the largest (field reading - nominal) / nominal in size, with its "
                                               "sign; of the means of the field sets")))),
    yes_no(sample, "sampler.known",
           "whether a pack, book.toml or a rule speaks of the sampler that is written, as far as a rule leans on it; "
           "missing where none is written"),
    yes_no(sample, "method.known",
           "whether a pack, book.toml or a rule speaks of the method that is written, as far as a rule leans on it; "
           "missing where none is written"),
    yes_no(sample, "analysis.known",
           "whether a pack, book.toml or a rule speaks of the analysis that is written, as far as a rule leans on it; "
           "missing where none is written"),
};

constexpr Measure set_measures[] = {
    exact(counted, number(set, "count", Dimension::count, "", "readings of the set that are not void")),
    not_stated(is_a_spread,
               or_absolute(Dimension::flow,
                           percentage(set, "rsd",
                                      "standard deviation (divisor n - 1) of the corrected readings, relative to "
                                      "their mean; missing below two readings"))),
    not_stated(is_a_spread,
               or_absolute(Dimension::flow,
                           percentage(set, "range", "largest corrected reading - smallest, relative to their mean"))),
    stated(of_its_set, number(set, "flow", Dimension::flow, "L/min", "mean of the corrected readings")),
    stated(of_its_set, from_nominal(flow_difference(set, "flow.deviation", "(flow - nominal) / nominal"))),
    exact(between_times, number(set, "duration", Dimension::time, "min", "time from the first to the last reading")),
    exact(between_times, number(set, "age", Dimension::time, "h",
                                "time between the set and the sample that leans on it, the longest if many")),
};

constexpr Measure reading_measures[] = {
    exact("as displayed", number(reading, "indicated", Dimension::flow, "L/min", "flow as the calibrator showed it")),
    not_stated(one_reading,
               number(reading, "actual", Dimension::flow, "L/min", "corrected flow at the conditions of the reading")),
    not_stated(one_reading,
               or_absolute(Dimension::flow, percentage(reading, "correction", "(actual - indicated) / indicated"))),
    exact("the display against the range as it was written",
          or_absolute(Dimension::flow,
                      percentage(reading, "range",
                                 "how far it lies outside its calibrator's range, relative to the nearer "
                                 "end; 0 inside it"))),
    stated("by [uncertainty] temperature",
           number(reading, "temperature", Dimension::temperature, "°C", "temperature at the reading")),
    stated("by [uncertainty] pressure, or altitude_pressure where it is the site's",
           number(reading, "pressure", Dimension::pressure, "kPa", "absolute pressure at the reading")),
    not_stated("the book gives no half-width of a humidity",
               percentage(reading, "humidity", "relative humidity at the reading")),
};

constexpr Measure calibrator_measures[] = {
    exact("counted in days",
          number(calibrator, "due", Dimension::time, "d", "days left until its certificate is due; negative: overdue")),
    stated("by the uncertainty of the certificate at that point",
           or_absolute(Dimension::flow,
                       percentage(calibrator, "as-found.error",
                                  "(as found - reference) / reference at the worst point of its newest certificate"))),
    exact("counted in days", number(calibrator, "age", Dimension::time, "d", "days since its newest certificate")),
    word(calibrator, "read-at", float_levels, "where on the float it is read; missing where nobody said"),
    yes_no(calibrator, "record.as-found",
           "whether its newest certificate says at every point what it showed as found, before any adjustment"),
};

constexpr Measure pump_measures[] = {
    not_stated(hang_together, percentage(pump, "drift.mean", "mean of the drifts of its samples")),
    not_stated(hang_together,
               percentage(pump, "drift.sd", "standard deviation (divisor n - 1) of the drifts of its samples")),
    not_stated(hang_together,
               percentage(pump, "trend", "slope of its pre flow over time, in 7 days, relative to the mean pre flow")),
    exact(counted, percentage(pump, "void.share", "void samples among its samples")),
};

constexpr Measure batch_measures[] = {
    exact(counted, number(batch, "blanks", Dimension::count, "", "blanks of the batch")),
    exact(counted, percentage(batch, "blank.share", "blanks, relative to the samples that are not blanks")),
    exact(counted, percentage(batch, "void.share", "void samples among the samples that are not blanks")),
    exact(counted,
          percentage(
              batch, "record.complete",
              "samples without a finding of a rule about a record (record.by and the like), among those that are not "
              "blanks")),
};

// Nothing that a limit can be held to is silent on how well it is known.
constexpr bool all_say(std::span<const Measure> measures) {
  return std::all_of(measures.begin(), measures.end(), [](const Measure& one) { return !one.known_by.empty(); });
}
static_assert(all_say(sample_measures) && all_say(set_measures) && all_say(reading_measures));
static_assert(all_say(calibrator_measures) && all_say(pump_measures) && all_say(batch_measures));

static_assert(std::size(sample_measures) == static_cast<std::size_t>(SampleMeasure::count_));
static_assert(std::size(set_measures) == static_cast<std::size_t>(SetMeasure::count_));
static_assert(std::size(reading_measures) == static_cast<std::size_t>(ReadingMeasure::count_));
static_assert(std::size(calibrator_measures) == static_cast<std::size_t>(CalibratorMeasure::count_));
static_assert(std::size(pump_measures) == static_cast<std::size_t>(PumpMeasure::count_));
static_assert(std::size(batch_measures) == static_cast<std::size_t>(BatchMeasure::count_));

}  // namespace

template <>
std::span<const std::string_view> words<Subject>() {
  return subject_words;
}

std::string_view to_text(Subject subject) { return word_of(subject); }

std::span<const Measure> measures(Subject subject) {
  switch (subject) {
    case sample:
      return sample_measures;
    case set:
      return set_measures;
    case reading:
      return reading_measures;
    case calibrator:
      return calibrator_measures;
    case pump:
      return pump_measures;
    case batch:
      return batch_measures;
  }
  return {};
}

std::string Measure::knowledge_text() const {
  constexpr std::string_view before[] = {"exact: ", "u ", "u not stated: "};
  return std::string(before[static_cast<std::size_t>(knowledge)]) + std::string(known_by);
}

bool is_about_records(const Measure& measure) { return measure.name.starts_with("record."); }

std::optional<std::size_t> measure_named(Subject subject, std::string_view name) {
  const std::span<const Measure> all = measures(subject);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].name == name) return i;
  }
  return std::nullopt;
}

}  // namespace driftwarden

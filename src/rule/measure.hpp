// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantity/units.hpp"
#include "rule/words.hpp"

namespace driftwarden {

// What a rule is about.
enum class Subject : std::uint8_t { sample, set, reading, calibrator, pump, batch, result };
inline constexpr std::size_t subject_count = 7;

template <>
std::span<const std::string_view> words<Subject>();
std::string_view to_text(Subject subject);

enum class MeasureKind : std::uint8_t { number, yes_no, word };

inline constexpr std::string_view yes_and_no[] = {"yes", "no"};

// How well a figure is known that a limit is held to.
enum class Knowledge : std::uint8_t {
  exact,       // counted, or compared as it was written
  stated,      // to an uncertainty worked out for each figure: limits on it can be guarded
  not_stated,  // there is an uncertainty, and nobody states it: limits on it stand unguarded
};

enum class SampleMeasure : std::uint8_t {
  drift,
  flow,
  flow_deviation,
  pre_flow,
  post_flow,
  pre_deviation,
  post_deviation,
  pre_count,
  post_count,
  pre_rsd,
  post_rsd,
  field_count,
  field_deviation,
  minutes,
  paused,
  volume,
  volume_reference,
  volume_uncertainty,
  warm_up,
  vacuum,
  leak,
  interruptions,
  pressure_drop,
  pulsation,
  pre_age,
  post_age,
  temperature_change,
  pressure_change,
  overlap,
  fault,
  calibrator_overdue,
  calibrator_range,
  calibrator_same,
  calibrator_read_at,
  certificate_missing,
  cut_shift,
  cut_size,
  mass_shift_actual,
  mass_shift_nominal,
  mass_bias,
  calibrator_uncertainty,
  record_pump_serial,
  record_by,
  record_conditions,
  record_sampling_conditions,
  record_calibrator_serial,
  record_certificate_uncertainty,
  record_certificate_issuer,
  record_certificate_standard,
  record_chain,
  record_void_reasons,
  record_method,
  record_fault,
  record_uncertainty,
  field_nominal_deviation,
  sampler_known,
  method_known,
  analysis_known,
  count_
};
enum class SetMeasure : std::uint8_t { count, rsd, range, flow, flow_deviation, duration, age, count_ };
enum class ReadingMeasure : std::uint8_t {
  indicated,
  actual,
  correction,
  range,
  temperature,
  pressure,
  humidity,
  count_
};
enum class CalibratorMeasure : std::uint8_t { due, as_found_error, age, read_at, record_as_found, count_ };
enum class PumpMeasure : std::uint8_t { drift_mean, drift_sd, trend, void_share, count_ };
enum class BatchMeasure : std::uint8_t { blanks, blank_share, void_share, record_complete, count_ };
enum class ResultMeasure : std::uint8_t {
  mass,
  mass_net,
  detected,
  blank_count,
  blank_share,
  blank_mean,
  blank_above_limit,
  concentration,
  concentration_uncertainty,
  balance_certificate_missing,
  balance_overdue,
  control_count,
  control_mean,
  control_change,
  count_
};

constexpr Subject subject_of(SampleMeasure) { return Subject::sample; }
constexpr Subject subject_of(SetMeasure) { return Subject::set; }
constexpr Subject subject_of(ReadingMeasure) { return Subject::reading; }
constexpr Subject subject_of(CalibratorMeasure) { return Subject::calibrator; }
constexpr Subject subject_of(PumpMeasure) { return Subject::pump; }
constexpr Subject subject_of(BatchMeasure) { return Subject::batch; }
constexpr Subject subject_of(ResultMeasure) { return Subject::result; }

// The records of a sample that a measure leans on: those a finding of it cites, and why it may be missing.
struct LeansOn {
  bool sample = false;  // its row
  bool pre = false;     // the readings of its sets
  bool post = false;
  bool field = false;
};

// What of the cut of its sampler a measure of a sample leans on, each with those before it.
enum class CutPart : std::uint8_t { nothing, law, curve, convention };

// Something a rule may hold to a limit. Its row stands in rule/measure_catalogue.
struct Measure {
  std::string_view name;
  Subject of = Subject::sample;
  std::size_t number = 0;  // its place in measures(of), and in its enumeration
  MeasureKind kind = MeasureKind::number;
  Dimension dimension = Dimension::count;  // of a number; figures are in its inside unit (a ratio: 0.05 for 5 %)
  std::string_view definition;
  bool has_base = false;                    // a rule may name what it is relative to
  std::string_view unit;                    // as printed; "" for a count
  std::optional<Dimension> absolute;        // of the difference behind a ratio: a limit may be written in it, too
  std::span<const std::string_view> words;  // the words a word may be
  Knowledge knowledge = Knowledge::exact;
  std::string_view known_by;       // where its u comes from, why it is exact, or why no u is stated
  bool from_nominal = false;       // relative to the nominal flow unless a rule names another base
  bool is_about_records = false;   // about what was written down and not about a figure: "record.by" and the like
  bool is_about_the_flow = false;  // how large the flow was, or how it moved
  bool is_a_difference = false;    // in a unit that others have as an amount, so that a limit may be ± of it
  LeansOn leans_on;                // of a measure of a sample
  CutPart of_the_cut = CutPart::nothing;

  // Written out: clang makes no member of a template in time for what is worked out while compiling.
  constexpr Measure or_absolute(Dimension difference) const {
    Measure changed = *this;
    changed.absolute = difference;
    return changed;
  }
  constexpr Measure from_nominal_flow() const {
    Measure changed = *this;
    changed.from_nominal = true;
    return changed;
  }
  constexpr Measure exact(std::string_view why, LeansOn records = {}) const {
    return known(Knowledge::exact, why, records);
  }
  constexpr Measure stated(std::string_view from, LeansOn records = {}) const {
    return known(Knowledge::stated, from, records);
  }
  constexpr Measure not_stated(std::string_view why, LeansOn records = {}) const {
    return known(Knowledge::not_stated, why, records);
  }
  constexpr Measure about_records() const {
    Measure changed = *this;
    changed.is_about_records = true;
    return changed;
  }
  constexpr Measure about_the_flow() const {
    Measure changed = *this;
    changed.is_about_the_flow = true;
    return changed;
  }
  constexpr Measure a_difference() const {
    Measure changed = *this;
    changed.is_a_difference = true;
    return changed;
  }
  constexpr Measure about_the_cut(CutPart part) const {
    Measure changed = *this;
    changed.of_the_cut = part;
    return changed;
  }
  constexpr Measure leaning_on(LeansOn records) const {
    Measure changed = *this;
    changed.leans_on = records;
    return changed;
  }

  // "u of the volume's budget", "exact: counted", "u not stated: …"
  std::string knowledge_text() const;

 private:
  constexpr Measure known(Knowledge how, std::string_view by, LeansOn records) const {
    Measure changed = *this;
    changed.knowledge = how;
    changed.known_by = by;
    changed.leans_on = records;
    return changed;
  }
};

// The catalogue of measures of a subject, in the order of its enumeration.
std::span<const Measure> measures(Subject subject);
std::optional<std::size_t> measure_named(Subject subject, std::string_view name);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "driftwarden/quantity/units.hpp"
#include "driftwarden/rule/words.hpp"

namespace driftwarden {

// What a rule is about.
enum class Subject : std::uint8_t { sample, set, reading, calibrator, pump, batch };

template <>
std::span<const std::string_view> words<Subject>();
std::string_view to_text(Subject subject);

inline constexpr std::string_view float_levels[] = {"centre", "top"};  // where a rotameter is read

enum class MeasureKind : std::uint8_t { number, yes_no, word };

inline constexpr std::string_view yes_and_no[] = {"yes", "no"};

// How well a figure is known that a limit is held to.
enum class Knowledge : std::uint8_t {
  exact,       // counted, or compared as it was written
  stated,      // to an uncertainty worked out for each figure: limits on it can be guarded
  not_stated,  // there is an uncertainty, and nobody states it: limits on it stand unguarded
};

// Something a rule may hold to a limit. Its number is its place in measures(of), and in the enumeration below.
struct Measure {
  std::string_view name;
  Subject of = Subject::sample;
  MeasureKind kind = MeasureKind::number;
  Dimension dimension = Dimension::count;  // of a number; figures are in its inside unit (a ratio: 0.05 for 5 %)
  std::string_view definition;
  bool has_base = false;                    // a rule may name what it is relative to
  std::string_view unit;                    // as printed; "" for a count
  std::optional<Dimension> absolute;        // of the difference behind a ratio: a limit may be written in it, too
  std::span<const std::string_view> words;  // the words a word may be
  Knowledge knowledge = Knowledge::exact;
  std::string_view known_by;  // where its u comes from, why it is exact, or why no u is stated
  bool from_nominal = false;  // relative to the nominal flow unless a rule names another base

  // "u of the volume's budget", "exact: counted", "u not stated: …"
  std::string knowledge_text() const;
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

// Whether it is about what was written down and not about a figure: "record.by" and the like.
bool is_about_records(const Measure& measure);

// The catalogue of measures of a subject, in the order of its enumeration.
std::span<const Measure> measures(Subject subject);
std::optional<std::size_t> measure_named(Subject subject, std::string_view name);

}  // namespace driftwarden

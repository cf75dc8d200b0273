// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "book/time_zone.hpp"
#include "record/moment.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// Where a figure comes from.
enum class PointKind : std::uint8_t { sample, bench, calibration, comparison, reference };
struct PointKindWords {
  std::string_view word;   // in data
  std::string_view title;  // in a legend
};
inline constexpr std::array<PointKindWords, 5> point_kinds{{
    {"sample", "read for a sample"},
    {"bench", "read for no sample"},
    {"calibration", "calibration"},
    {"comparison", "two calibrators on one pump"},
    {"reference", "checked against a reference"},
}};
inline std::string_view to_text(PointKind kind) { return point_kinds[static_cast<std::size_t>(kind)].word; }

// One figure of an instrument's history.
struct SeriesPoint {
  Moment at = no_moment;  // of a series by day: midnight of the day, as if the book's zone were UTC
  double value = missing;
  std::size_t n = 1;  // readings behind it
  double s = missing;
  double expanded_uncertainty = missing;  // k = 2, in the series' unit
  bool is_void = false;                   // shown, but no limit, rule or trend counts it
  std::string from;                       // the sample or certificate it came from
  // Read with; of a drift before and after. no_row: nobody says, or it matters not.
  Row calibrator = no_row;
  Row calibrator_after = no_row;
  PointKind kind = PointKind::sample;
  // That corrected what the calibrators showed, or was in force of the two instruments of a comparison.
  Row certificate = no_row;
  Row certificate_after = no_row;

  double day() const { return static_cast<double>(at) / seconds_a_day; }
  double counted() const { return is_void ? missing : value; }
  // Whether the error of a calibrator, or of a certificate, is in it: not in a drift read with one calibrator under one
  // certificate before and after.
  bool leans_on_calibrator() const { return calibrator != calibrator_after || certificate != certificate_after; }
  // Whether no change of calibrator or certificate stands between two points.
  bool is_read_like(const SeriesPoint& other) const;
};

// Between which ends a figure is in order, and who says so. Missing where nobody does.
struct Tolerance {
  double lower = missing;
  double upper = missing;
  std::string source;

  bool is_stated() const { return !is_missing(lower) || !is_missing(upper); }
};

bool is_beyond(double figure, const Tolerance& tolerance);

// A calibrated instrument's error at one calibration: how far it moved since it was last left.
struct CalibrationStep {
  double days = 0;
  double change = missing;  // as found, less as left the time before; in the series' unit
};

// A stretch of a series that is charted by itself, for something was done to the instrument before it.
struct Phase {
  std::size_t first = 0;
  std::size_t count = 0;
  std::string reason;  // "" for the first
};

// One kind of figure of one instrument over time, in order of time.
struct Series {
  std::string name;   // "pre-flow"
  std::string title;  // "Pre flow"
  std::string unit;   // "L/min", "%", "h", "d"
  std::string basis;  // conditions the figures are stated at; "" where it doesn't matter
  std::vector<SeriesPoint> points;
  std::vector<Phase> phases;
  Tolerance tolerance;
  bool is_by_day = false;     // the time of day is not known
  bool is_charted = true;     // false: counts and due days, where limits mean nothing
  bool takes_target = false;  // the book's `target` is of this series
  // Where the instrument was adjusted between the points: the steps, and where it was left the last time.
  std::vector<CalibrationStep> steps;
  double last_left = missing;

  std::size_t counted() const;
};

// Whether there is anything to draw: one point is no chart.
bool has_a_chart(const Series& series);

// The last point that counts; nullptr where none does.
const SeriesPoint* last_counted(const Series& series);

// How many counted points lie beyond the tolerance, in words: "2 points beyond the tolerance, the last on 2026-11-19".
// "" where none does.
std::string beyond_tolerance_said(const Series& series, const TimeZone& zone);

// The day of a point, in the zone where its time is known.
Day day_of(const Series& series, const SeriesPoint& point, const TimeZone& zone);

// A series without points yet.
Series empty_series(std::string name, std::string title, std::string unit, std::string basis = {});

// Something done to an instrument after which its history begins anew.
struct PhaseStart {
  Moment at = no_moment;
  std::string reason;
};

// Cuts a series at the starts. Starts before its first or after its last point cut nothing.
void cut_into_phases(Series& series, std::vector<PhaseStart> starts);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "history/comparison_series.hpp"
#include "history/forecast.hpp"
#include "history/use_log.hpp"

namespace driftwarden {

// What one method would advise: advice, never applied. Days between calibrations, or nothing with what it lacks.
struct IntervalOpinion {
  std::string method;
  double advice_days = missing;
  std::string remark;              // how the figure is to be read
  std::vector<std::string> from;   // what it was computed from
  std::vector<std::string> lacks;  // what it would need
  bool is_a_limit = false;         // something that was seen, or is permitted no longer, speaks against waiting longer
};

// A share of instruments of one kind that is to be in tolerance still when they come back.
inline constexpr double reliability_target = 0.90;
inline constexpr std::size_t fewest_results_of_a_share = 20;
inline constexpr double fewest_days_of_a_pace = 30;  // since a calibration, until use tells a pace
inline constexpr double shortest_interval_days = 90;
inline constexpr double longest_interval_days = 730;

// What the methods need to know of an instrument.
struct IntervalFacts {
  const Screening& screening;
  Row instrument = no_row;
  Day as_of = no_day;
  const Series* as_found = nullptr;    // worst point; nullptr: never calibrated
  const Forecast* forecast = nullptr;  // of the same
  const std::vector<Comparison>& comparisons;
  const UseLog& log;
};

// The five methods of ILAC-G24 / OIML D 10, one opinion each, in its order: staircase, control-chart, in-use-time,
// in-service-check, reliability-target.
std::vector<IntervalOpinion> interval_opinions(const IntervalFacts& facts);

// Which opinion to go by, and why: nullptr where none has a figure.
//
// The shortest of one that tells how long such an instrument lasts and of all that speak against waiting longer. The
// one is the share of its kind that comes back in tolerance, else the staircase, else what says that nothing speaks
// against the interval in force. So it is never later than the forecast's earliest day.
// What each of the five is worth by itself: docs/history.md.
const IntervalOpinion* recommended(const std::vector<IntervalOpinion>& opinions);

// "228 d by staircase: well inside its tolerance: longer (interval 182 d, tolerance 1 %)"
std::string said_of(const IntervalOpinion& opinion);

// Hours that a calibrator was in use after a day, as far as readings of pumps tell: each set from its first reading to
// its last, and a quarter of an hour at least, for nobody writes down when a calibrator is switched on (this project's
// choice).
double hours_in_use(const UseLog& log, Row calibrator, Day after, const TimeZone& zone);

// The interval in force: from the newest certificate to its due day, else the instrument's own. Missing: none.
double interval_in_force(const Book& book, Row instrument, Day as_of);

}  // namespace driftwarden

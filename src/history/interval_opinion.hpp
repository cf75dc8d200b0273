// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/forecast.hpp"
#include "statistics/reliability.hpp"

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
// Nor does a staircase lengthen by fewer results than can show a trend, for it heeds that (this project's choice).
inline constexpr std::size_t fewest_results_to_lengthen = fewest_points_of_a_trend;
inline constexpr double shortest_interval_days = 90;
inline constexpr double longest_interval_days = 730;

// What the calibrations of an instrument tell.
struct FoundErrors {
  const Series* series = nullptr;      // as found, worst point; nullptr: never calibrated
  const Forecast* forecast = nullptr;  // of the same
  double interval = missing;           // in force, days
  Day as_of = no_day;
};

// By the last error, up or down; longer only where the results since the last repair or adjustment are
// `fewest_results_to_lengthen` and their forecast stays inside the tolerance to the end of the longer interval.
IntervalOpinion staircase_opinion(const FoundErrors& found);

// Until the earliest day on which the forecast may leave the tolerance.
IntervalOpinion control_chart_opinion(const FoundErrors& found);

// So that the share wanted comes back in tolerance, by the results of all instruments of a kind.
IntervalOpinion reliability_opinion(const std::vector<IntervalResult>& results);

// Which opinion to go by, and why: nullptr where none has a figure.
//
// The shortest of one that tells how long such an instrument lasts and of all that speak against waiting longer. The
// one is the share of its kind that comes back in tolerance, else the staircase, else what says that nothing speaks
// against the interval in force. So it is never later than the forecast's earliest day.
// What each of the five is worth by itself: docs/history.md.
const IntervalOpinion* recommended(const std::vector<IntervalOpinion>& opinions);

// "228 d by staircase: it came back well inside its tolerance, so longer (interval 182 d, tolerance 1 %)"
std::string said_of(const IntervalOpinion& opinion);

// For opinions: `advice` with its remark, never longer than what it was computed from bears, so that one shorter than
// is practical is told as such, nor than `longest`.
void advise(IntervalOpinion& opinion, double advice, const std::string& remark, double longest = longest_interval_days);

// The interval in force, whatever its length.
void advise_as_it_is(IntervalOpinion& opinion, double interval, const std::string& why);

// "1.25 %"; "365 d"
std::string with_unit(double value, const std::string& unit);
std::string in_days(double value);

}  // namespace driftwarden

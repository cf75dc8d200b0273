// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "history/comparison_series.hpp"
#include "history/forecast.hpp"

namespace driftwarden {

// What one method would advise: advice, never applied. Days between calibrations, or nothing with what it lacks.
struct IntervalOpinion {
  std::string method;
  double advice_days = missing;
  std::string remark;              // how the figure is to be read
  std::vector<std::string> from;   // what it was computed from
  std::vector<std::string> lacks;  // what it would need
};

// A share of instruments of one kind that is to be in tolerance still when they come back.
inline constexpr double reliability_target = 0.90;
inline constexpr std::size_t fewest_results_of_a_share = 20;
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
};

// The five methods of ILAC-G24 / OIML D 10, one opinion each, in its order: staircase, control-chart, in-use-time,
// in-service-check, reliability-target.
std::vector<IntervalOpinion> interval_opinions(const IntervalFacts& facts);

// The interval in force: from the newest certificate to its due day, else the instrument's own. Missing: none.
double interval_in_force(const Book& book, Row instrument, Day as_of);

}  // namespace driftwarden

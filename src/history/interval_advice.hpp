// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "history/comparison_series.hpp"
#include "history/interval_opinion.hpp"
#include "history/use_log.hpp"

namespace driftwarden {

inline constexpr double fewest_days_of_a_pace = 30;  // since a calibration, until use tells a pace

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

// Hours that a calibrator was in use after a day, as far as readings of pumps tell: each set from its first reading to
// its last, and a quarter of an hour at least, for nobody writes down when a calibrator is switched on (this project's
// choice).
double hours_in_use(const UseLog& log, Row calibrator, Day after, const TimeZone& zone);

// The interval in force: from the newest certificate to its due day, else the instrument's own. Missing: none.
double interval_in_force(const Book& book, Row instrument, Day as_of);

}  // namespace driftwarden

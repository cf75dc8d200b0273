// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "book/time_zone.hpp"
#include "history/heed.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::test {

// A fleet that is made up, and what may be the matter with its first pump.
struct Fleet {
  std::size_t pumps = 12;
  std::size_t points = 30;   // of each pump before the week that is reviewed
  double phi = 0;            // how days resemble each other
  double unequal = 1;        // the least steady pump scatters so many times as much as the steadiest
  double rounded_to = 0;     // percent; 0: not rounded
  double sigma = 0.4;        // percent, of the steadiest pump
  double drift_a_month = 0;  // percent, of the pre flow, from the week reviewed on
  double step = 0;           // percent, of the pre flow
  double slip = 0;           // percent, of one pre flow
  double scatter_a_use = 0;  // the scatter grows by this share of itself at each use
};

inline constexpr std::size_t uses_a_week = 2;
inline constexpr Day first_day_of_fleet = 20454;  // 2026-01-01

inline Day day_of_use(std::size_t use) { return first_day_of_fleet + static_cast<Day>(use * 7 / uses_a_week); }

// One series of one pump: a chain of first order, normal, rounded as the display rounds.
inline Series series_of_pump(const Fleet& fleet, std::string name, double sigma, std::size_t uses,
                             RandomNumbers& random) {
  Series series = empty_series(std::move(name), "", "%");
  double state = random.normal();
  for (std::size_t use = 0; use < uses; ++use) {
    if (use > 0) state = fleet.phi * state + std::sqrt(1 - fleet.phi * fleet.phi) * random.normal();
    SeriesPoint point;
    point.at = static_cast<Moment>(day_of_use(use)) * 86400 + 30000;
    point.value = sigma * state;
    series.points.push_back(point);
  }
  return series;
}

inline void round_points(Series& series, double to) {
  for (SeriesPoint& point : series.points) {
    if (to > 0) point.value = to * std::nearbyint(point.value / to);
  }
  cut_into_phases(series, {});
}

// What is the matter, from the use `from` on.
inline void spoil(const Fleet& fleet, std::vector<Series>& pump, std::size_t from) {
  constexpr double days_a_month = 30.4375;  // derived: 365.25 / 12
  for (std::size_t use = from; use < pump[0].points.size(); ++use) {
    const double months = static_cast<double>(day_of_use(use) - day_of_use(from - 1)) / days_a_month;
    pump[0].points[use].value += fleet.drift_a_month * months + fleet.step + (use == from ? fleet.slip : 0);
    pump[1].points[use].value *= 1 + fleet.scatter_a_use * static_cast<double>(use - from + 1);
  }
}

// Pumps with a series of their pre flow and one of their drift, equal or ever less steady.
inline std::vector<std::vector<Series>> made_fleet(const Fleet& fleet, std::size_t uses, RandomNumbers& random) {
  std::vector<std::vector<Series>> pumps;
  for (std::size_t i = 0; i < fleet.pumps; ++i) {
    const double share = fleet.pumps > 1 ? static_cast<double>(i) / static_cast<double>(fleet.pumps - 1) : 0;
    const double sigma = fleet.sigma * std::pow(fleet.unequal, share);
    pumps.push_back({series_of_pump(fleet, "pre-flow-deviation", sigma, uses, random),
                     series_of_pump(fleet, "drift", sigma, uses, random)});
  }
  return pumps;
}

// The pumps for which the page of the week after `uses` uses asks for an action.
inline std::vector<std::size_t> pumps_with_an_action(const std::vector<std::vector<Series>>& fleet, std::size_t uses,
                                                     double false_actions) {
  ResemblanceByName resemblance;
  std::vector<std::vector<Series>> cut = fleet;
  for (std::vector<Series>& pump : cut) {
    for (Series& series : pump) {
      series.points.resize(uses);
      cut_into_phases(series, {});
      resemblance.add(series);
    }
  }
  std::vector<InstrumentHistory> histories;
  std::vector<std::vector<BehaviourTest>> tests;
  SignalLoad load{false_actions, 0};
  histories.reserve(cut.size());
  for (std::vector<Series>& pump : cut) {
    InstrumentHistory& history = histories.emplace_back();
    for (Series& series : pump) history.series.push_back(reckoned(std::move(series), resemblance, 0, TimeZone::utc()));
    tests.push_back(behaviour_tests(history, day_of_use(uses - uses_a_week), TimeZone::utc()));
    load.questions += tests.back().size();
  }
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < tests.size(); ++i) {
    if (!signals_among(tests[i], load).empty()) found.push_back(i);
  }
  return found;
}

}  // namespace driftwarden::test

// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "history/instrument_history.hpp"

namespace driftwarden {

// A shift is looked for in the mean of the newest so many points.
inline constexpr std::size_t points_of_a_shift = 4;
// No test is laxer than three sigma, however few there are: a point in 370.
inline constexpr double laxest_chance = 0.0027;

// In what an instrument can behave otherwise than it did.
enum class Behaviour : std::uint8_t {
  slip,     // one new point stands away from those before it
  shift,    // the mean of the newest points does
  trend,    // the points rise or fall
  scatter,  // the points lie ever farther from their middle, on whatever side
};

// One question asked of a series, and how often chance answers so where nothing is the matter.
struct BehaviourTest {
  Behaviour of = Behaviour::slip;
  const SeriesHistory* series = nullptr;
  double p = missing;
  std::size_t point = 0;        // of the series: the newest that it is about
  double difference = missing;  // of a slip or shift, in the series' unit
};

// "by chance once in 2300 times"
std::string by_chance(double p);

// "Drift per use: it scatters ever farther, up to 2026-10-25; by chance once in 2300 times"
std::string said_of(const BehaviourTest& test, const TimeZone& zone);

// All questions asked of the last phase of an instrument's reviewed series on account of the points from a day on:
// every such point for a slip, and once a series for the rest. None where nothing came since, or too little was known
// before.
std::vector<BehaviourTest> behaviour_tests(const InstrumentHistory& history, Day from, const TimeZone& zone);

// How many questions a page asks of an instrument: those, and whether the trend behind a forecast is one where nothing
// new came.
std::size_t questions_about(const InstrumentHistory& history, const std::vector<BehaviourTest>& tests);

// How rare an answer has to be to ask for an action, so that a page brings no more false ones than it may.
//
//   α = min( A·d/7 / m, 0.0027 )
//
//   A        false actions that are accepted in a week      d  days reviewed      m  questions asked by the page
//   Source   expectations add up, whatever hangs together with what: m questions answered falsely with probability α
//            each bring mα false actions (Bonferroni's bound, of the expectation)
//   Valid    as far as the p of each question is right: tests/reference/load measures that
//   Example  A 1, 7 days, 1200 questions  ->  α 0.000833
struct SignalLoad {
  double false_actions = 0;  // accepted in the days reviewed
  std::size_t questions = 0;
  double chance() const;    // α
  double expected() const;  // mα, at most false_actions
};

// The series that a weekly page asks about, the one that says most first; the pre flow only where there is no nominal.
inline constexpr std::array<std::string_view, 4> names_asked_about{"pre-flow-deviation", "pre-flow", "drift",
                                                                   "as-found-error"};

// Between which ends the next point of a series asks for no action as a slip: what the page asks, the other way round.
// No figure of a series that no page asks about, of fewer points than tell what is usual, and of points that resemble
// each other so much that they are worth fewer independent ones than can show a trend.
Bounds limits_of_next(const SeriesHistory& series, const SignalLoad& load);

// Why a series that is asked about has none: "its 3 points are too few to say where a next one asks for an action". ""
// where it has, or where all points are alike.
std::string lacks_limits_of_next(const SeriesHistory& series);

// Those that are rarer than chance allows, the rarest first.
std::vector<BehaviourTest> signals_among(const std::vector<BehaviourTest>& tests, const SignalLoad& load);

}  // namespace driftwarden

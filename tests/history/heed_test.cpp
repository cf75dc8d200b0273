// SPDX-License-Identifier: MIT
#include "history/heed.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "history/made_series.hpp"
#include "support/fleet.hpp"

namespace driftwarden::heed_test {
namespace {

using Behaviours = std::vector<Behaviour>;

InstrumentHistory history_of(const std::vector<double>& values) {
  InstrumentHistory history;
  history.series.push_back(reckoned(made_series(values), ResemblanceByName(), 0, TimeZone::utc()));
  return history;
}

constexpr Day first_day = 20454;

// What is asked on account of the points from the n-th on.
std::vector<BehaviourTest> asked(const InstrumentHistory& history, std::size_t n) {
  return behaviour_tests(history, first_day + static_cast<Day>(n), TimeZone::utc());
}

Behaviours behaviours(const std::vector<BehaviourTest>& tests) {
  Behaviours found;
  for (const BehaviourTest& test : tests) found.push_back(test.of);
  return found;
}

Behaviours signals_in(const std::vector<double>& values, std::size_t from) {
  const InstrumentHistory history = history_of(values);
  return behaviours(signals_among(asked(history, from), {1, 100}));
}

const std::vector<double> steady{0.3, -0.4, 0.1, 0.5, -0.2, -0.5, 0.2, 0.4, -0.1, -0.3, 0.0, 0.25};

TEST(BehaviourTests, AskOfEveryNewPointAndOnceASeriesForTheRest) {
  EXPECT_EQ(behaviours(asked(history_of(steady), 10)),
            (Behaviours{Behaviour::slip, Behaviour::slip, Behaviour::shift, Behaviour::trend, Behaviour::scatter}));
}

TEST(BehaviourTests, AskNothingWhereNothingNewCameOrLittleWasKnown) {
  EXPECT_TRUE(asked(history_of(steady), steady.size()).empty());
  EXPECT_TRUE(asked(history_of({0.3, -0.4, 0.1, 9}), 2).empty());
}

TEST(Signals, AreNoneOfASteadyPump) { EXPECT_EQ(signals_in(steady, 10), Behaviours{}); }

TEST(Signals, TellASlip) {
  std::vector<double> values = steady;
  values.push_back(4);
  EXPECT_EQ(signals_in(values, 12).front(), Behaviour::slip);
}

// The drift of a pump that wanders from 0.5 to 4 %, to and fro.
TEST(Signals, TellDriftThatAlternatesAndGrows) {
  const std::vector<double> wandering{0.7, -1.0, -1.1, 1.2, 1.9, -2.2, 2.3, -1.8, -3.1, 3.1, 3.3, -3.7};
  EXPECT_EQ(signals_in(wandering, 10), Behaviours{Behaviour::scatter});
}

TEST(Signals, SayWhatAndHowRareItIs) {
  std::vector<double> values = steady;
  values.push_back(4);
  const InstrumentHistory history = history_of(values);
  const auto tests = asked(history, 12);
  EXPECT_EQ(said_of(tests.front(), TimeZone::utc()),
            "Drift per use: the point lies 4.0 % above the mean of those before it, on 2026-01-13; by chance less than "
            "once in a million times");
}

SeriesHistory drifts(std::size_t n) {
  return reckoned(made_series({steady.begin(), steady.begin() + static_cast<std::ptrdiff_t>(n)}), ResemblanceByName(),
                  0, TimeZone::utc());
}

TEST(LimitsOfNext, TakeEightPoints) {
  EXPECT_FALSE(std::isnan(limits_of_next(drifts(8), {}).lower));
  EXPECT_EQ(lacks_limits_of_next(drifts(8)), "");
  EXPECT_TRUE(std::isnan(limits_of_next(drifts(7), {}).lower));
  EXPECT_EQ(lacks_limits_of_next(drifts(7)), "its 7 points are too few to say where a next one asks for an action");
  EXPECT_EQ(lacks_limits_of_next(drifts(1)), "its point is too few to say where a next one asks for an action");
}

// derived: 8 points with φ 0.48 are worth 8 · 0.7696/1.2304 = 5.004 independent ones, with 0.49 only 4.90.
TEST(LimitsOfNext, TakePointsThatAreWorthFive) {
  SeriesHistory series = drifts(8);
  series.phi_of_kind = 0.48;
  EXPECT_FALSE(std::isnan(limits_of_next(series, {}).lower));
  series.phi_of_kind = 0.49;
  EXPECT_TRUE(std::isnan(limits_of_next(series, {}).lower));
  EXPECT_EQ(
      lacks_limits_of_next(series),
      "its 8 points are too few to say where a next one asks for an action, for each resembles the one before it");
}

TEST(LimitsOfNext, AreNoneOfASeriesThatNoPageAsksAbout) {
  SeriesHistory series = drifts(12);
  series.series.name = "compared-with V2";
  EXPECT_TRUE(std::isnan(limits_of_next(series, {}).lower));
  EXPECT_EQ(lacks_limits_of_next(series), "");
}

// input: a hair beyond, and a hair inside.
TEST(LimitsOfNext, AreBeyondWhatASlipIsToldFrom) {
  const Bounds next = limits_of_next(drifts(12), {1, 100});
  for (const auto& [value, is_told] : {std::pair(next.upper + 0.001, true), {next.upper - 0.001, false}}) {
    std::vector<double> values = steady;
    values.push_back(value);
    const Behaviours told = signals_in(values, 12);
    EXPECT_EQ(std::ranges::count(told, Behaviour::slip) > 0, is_told) << value;
  }
}

TEST(SignalLoad, SharesOutWhatIsAccepted) {
  EXPECT_DOUBLE_EQ((SignalLoad{1, 1200}.chance()), 1.0 / 1200);
  EXPECT_DOUBLE_EQ((SignalLoad{1, 1200}.expected()), 1);
  EXPECT_DOUBLE_EQ((SignalLoad{1, 10}.chance()), laxest_chance);
  EXPECT_DOUBLE_EQ((SignalLoad{1, 10}.expected()), 0.027);  // derived: 10 times the laxest chance
}

// A small one of the study in tests/reference/load: 40 pumps, 20 points each, independent days and days that resemble
// each other by 0.6. Without the share of the load the first fails, without the correction for resemblance the second.
TEST(SignalLoad, HoldsOnAnHonestFleet) {
  for (const double phi : {0.0, 0.6}) {
    test::RandomNumbers random(3);
    test::Fleet fleet;
    fleet.pumps = 40;
    fleet.points = 20;
    fleet.phi = phi;
    fleet.unequal = 2.7;
    std::size_t actions = 0;
    constexpr std::size_t pages = 12;
    for (std::size_t page = 0; page < pages; ++page) {
      auto pumps = test::made_fleet(fleet, fleet.points + test::uses_a_week, random);
      for (auto& pump : pumps) {
        for (Series& series : pump) test::round_points(series, 0);
      }
      actions += test::pumps_with_an_action(pumps, fleet.points + test::uses_a_week, 1).size();
    }
    EXPECT_LE(actions, pages * 3 / 2) << phi;
  }
}

}  // namespace
}  // namespace driftwarden::heed_test

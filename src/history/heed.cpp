// SPDX-License-Identifier: MIT
#include "history/heed.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "book/stamp_text.hpp"
#include "history/instrument_action.hpp"
#include "quantity/rounding.hpp"
#include "statistics/resemblance.hpp"

namespace driftwarden {
namespace {

constexpr double rarest_told = 1e-6;

// The counted points of a series' last phase, and which of them came on the day or later.
struct LastPhase {
  std::vector<double> values;
  std::vector<std::size_t> points;  // of the series
  std::size_t known_before = 0;     // so many came earlier
};

LastPhase last_phase_of(const Series& series, Day from, const TimeZone& zone) {
  LastPhase last;
  if (series.phases.empty()) return last;
  const Phase& phase = series.phases.back();
  for (std::size_t i = phase.first; i < phase.first + phase.count; ++i) {
    if (is_missing(series.points[i].counted())) continue;
    last.values.push_back(series.points[i].value);
    last.points.push_back(i);
    last.known_before += day_of(series, series.points[i], zone) < from ? 1U : 0U;
  }
  return last;
}

bool is_asked_about(const Series& series) { return std::ranges::count(names_asked_about, series.name) > 0; }

// What a next point is held to.
struct KnownBefore {
  std::vector<double> values;
  double phi = 0;

  explicit KnownBefore(const SeriesHistory& series)
      : values(last_phase_of(series.series, no_day, TimeZone::utc()).values),
        phi(std::max(series.phi_of_kind, resemblance_of(values).at_least_zero())) {}

  bool are_enough() const {
    return values.size() >= fewest_usual_points &&
           points_for_the_spread(values.size(), phi) >= static_cast<double>(fewest_points_of_a_trend);
  }
};

class SeriesQuestions {
 public:
  SeriesQuestions(const SeriesHistory& series, Day from, const TimeZone& zone, std::vector<BehaviourTest>& tests)
      : series_(series),
        phi_of_kind_(series.phi_of_kind),
        last_(last_phase_of(series.series, from, zone)),
        tests_(tests) {}

  void ask() {
    if (last_.known_before == last_.values.size()) return;
    slips();
    shift();
    if (last_.values.size() < fewest_usual_points) return;
    if (series_.forecast.trend) add(Behaviour::trend, series_.forecast.trend->p, last_.points.size() - 1, missing);
    add(Behaviour::scatter, growing_scatter_p(last_.values, phi_of_kind_), last_.points.size() - 1, missing);
  }

 private:
  // Points that came together are each held to those before them.
  void slips() {
    for (std::size_t i = std::max(last_.known_before, fewest_usual_points); i < last_.values.size(); ++i)
      step(i, i + 1, Behaviour::slip);
  }

  void shift() {
    if (last_.values.size() < fewest_usual_points + points_of_a_shift) return;
    step(last_.values.size() - points_of_a_shift, last_.values.size(), Behaviour::shift);
  }

  void step(std::size_t first, std::size_t end, Behaviour of) {
    const std::span<const double> all(last_.values);
    const std::span<const double> before = all.first(first);
    const double phi = std::max(phi_of_kind_, resemblance_of(before).at_least_zero());
    const StepTest test = step_test(before, all.subspan(first, end - first), phi);
    add(of, test.p, end - 1, test.difference);
  }

  void add(Behaviour of, double p, std::size_t counted, double difference) {
    if (!std::isnan(p)) tests_.push_back({of, &series_, p, last_.points[counted], difference});
  }

  const SeriesHistory& series_;
  double phi_of_kind_;
  LastPhase last_;
  std::vector<BehaviourTest>& tests_;
};

// "2.4 % below"
std::string how_far(const BehaviourTest& test) {
  return with_significant_digits(std::abs(test.difference), 2) + " " + test.series->series.unit +
         (test.difference < 0 ? " below" : " above");
}

std::string what_of(const BehaviourTest& test) {
  switch (test.of) {
    case Behaviour::slip:
      return "the point lies " + how_far(test) + " the mean of those before it, on ";
    case Behaviour::shift:
      return "the last " + std::to_string(points_of_a_shift) + " points lie " + how_far(test) +
             " the mean of those before them, up to ";
    case Behaviour::trend:
      return test.series->forecast.trend->slope_per_day > 0 ? "it rises, up to " : "it falls, up to ";
    case Behaviour::scatter:
      return "it scatters ever farther, up to ";
  }
  return {};
}

}  // namespace

std::string by_chance(double p) {
  if (p < rarest_told) return "by chance less than once in a million times";
  return "by chance once in " + with_significant_digits(1 / p, 2) + " times";
}

std::string said_of(const BehaviourTest& test, const TimeZone& zone) {
  const Series& series = test.series->series;
  const std::string when = date_text(day_of(series, series.points[test.point], zone));
  return series.title + ": " + what_of(test) + when + "; " + by_chance(test.p);
}

std::vector<BehaviourTest> behaviour_tests(const InstrumentHistory& history, Day from, const TimeZone& zone) {
  std::vector<BehaviourTest> tests;
  for (const SeriesHistory* series : reviewed_series(history)) SeriesQuestions(*series, from, zone, tests).ask();
  return tests;
}

std::size_t questions_about(const InstrumentHistory& history, const std::vector<BehaviourTest>& tests) {
  std::size_t questions = tests.size();
  for (const SeriesHistory* series : reviewed_series(history)) {
    const bool is_asked = std::any_of(tests.begin(), tests.end(), [&](const BehaviourTest& test) {
      return test.series == series && test.of == Behaviour::trend;
    });
    questions += !is_asked && series->forecast.crossing ? 1U : 0U;
  }
  return questions;
}

double SignalLoad::chance() const {
  return questions == 0 ? laxest_chance : std::min(false_actions / static_cast<double>(questions), laxest_chance);
}

double SignalLoad::expected() const { return chance() * static_cast<double>(questions); }

Bounds limits_of_next(const SeriesHistory& series, const SignalLoad& load) {
  if (!is_asked_about(series.series)) return {};
  const KnownBefore known(series);
  return known.are_enough() ? limits_of_next(known.values, known.phi, load.chance()) : Bounds{};
}

std::string lacks_limits_of_next(const SeriesHistory& series) {
  if (!is_asked_about(series.series)) return {};
  const KnownBefore known(series);
  if (known.are_enough()) return {};
  const std::size_t n = known.values.size();
  const std::string points = n == 1 ? "its point is" : "its " + std::to_string(n) + " points are";
  return points + " too few to say where a next one asks for an action" +
         (n < fewest_usual_points ? "" : ", for each resembles the one before it");
}

std::vector<BehaviourTest> signals_among(const std::vector<BehaviourTest>& tests, const SignalLoad& load) {
  std::vector<BehaviourTest> signals;
  std::copy_if(tests.begin(), tests.end(), std::back_inserter(signals),
               [&](const BehaviourTest& test) { return test.p <= load.chance(); });
  std::stable_sort(signals.begin(), signals.end(),
                   [](const BehaviourTest& a, const BehaviourTest& b) { return a.p < b.p; });
  return signals;
}

}  // namespace driftwarden

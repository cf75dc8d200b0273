// SPDX-License-Identifier: MIT
// How often calibrators come back in tolerance when each of the five interval methods is followed, and how many
// calibrations a year that takes.
//     interval_load [SEED]        the table of docs/history.md, in a minute
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "history/forecast.hpp"
#include "history/interval_advice.hpp"
#include "statistics/calibration_interval.hpp"
#include "statistics/random_numbers.hpp"
#include "statistics/reliability.hpp"

namespace driftwarden::test {
namespace {

// Invented, as all that calibrators do here.
constexpr double days_a_year = 365.25;
constexpr double tolerance = 2;         // percent
constexpr double first_interval = 365;  // days, in force at the beginning
constexpr double shortest = 30;         // nobody calibrates more often, whatever is advised
constexpr double years = 15;            // of which the first five are not counted
constexpr double counted_from = 5;
constexpr std::size_t fleet_size = 25;
constexpr std::size_t fleets = 40;
constexpr double expanded_of_a_check = 0.7;  // percent, on either side of a check between calibrations
constexpr double days_between_checks = 30;

enum class Method { as_it_is, staircase, control_chart, in_use_time, in_service_check, reliability };
enum class Habit { drifts, wanders, is_knocked, wears };

struct Calibrator {
  double error = 0;         // percent, true
  double a_year = 0;        // its drift, percent
  double hours_a_year = 0;  // in use
  double age_d = 0;         // days since the beginning
  double interval = first_interval;
  Series found;  // its errors as found
  bool was_adjusted = false;
};

class FleetYears {
 public:
  FleetYears(Method method, Habit habit, RandomNumbers& random) : method_(method), habit_(habit), random_(random) {}

  void run() {
    std::vector<Calibrator> fleet(fleet_size);
    for (Calibrator& one : fleet) begin(one);
    const auto days = static_cast<int>(years * days_a_year);
    std::vector<double> since(fleet.size(), 0);
    std::vector<double> hours(fleet.size(), 0);
    for (int day = 1; day <= days; ++day) {
      for (std::size_t i = 0; i < fleet.size(); ++i) {
        Calibrator& one = fleet[i];
        live_a_day(one);
        since[i] += 1;
        hours[i] += one.hours_a_year / days_a_year;
        if (!is_due(one, since[i], hours[i])) continue;
        calibrate(one, since[i]);
        since[i] = hours[i] = 0;
      }
    }
  }

  double share_in_tolerance() const { return static_cast<double>(in_) / static_cast<double>(calibrations_); }
  double calibrations_a_year() const {
    return static_cast<double>(calibrations_) / (static_cast<double>(fleet_size) * (years - counted_from));
  }

 private:
  void begin(Calibrator& one) {
    one.error = 0.2 * random_.normal();
    one.hours_a_year = 200 * std::exp(0.5 * random_.normal());
    if (habit_ == Habit::drifts) one.a_year = 0.8 * random_.normal();
    if (habit_ == Habit::wears) one.a_year = 0.8 * one.hours_a_year / 200;
    one.found = empty_series("as-found-error", "Error as found, worst point", "%");
    one.found.tolerance = {-tolerance, tolerance, "certificate"};
    one.found.is_by_day = true;
  }

  void live_a_day(Calibrator& one) {
    one.age_d += 1;
    one.error += one.a_year / days_a_year;
    const double a_year = habit_ == Habit::wanders ? 1.0 : 0.2;
    one.error += a_year / std::sqrt(days_a_year) * random_.normal();
    constexpr double knocks_a_year = 0.15;
    if (habit_ == Habit::is_knocked && random_.uniform() < knocks_a_year / days_a_year)
      one.error += random_.uniform() < 0.5 ? 4 : -4;
  }

  bool is_due(const Calibrator& one, double since, double hours) {
    constexpr double permitted_hours = 200;  // what a usual one is used in a year
    if (method_ == Method::in_use_time) return hours >= permitted_hours || since >= longest_interval_days;
    const bool is_checked = method_ == Method::in_service_check && std::fmod(since, days_between_checks) < 1;
    if (is_checked) {
      const double noise = expanded_of_a_check / 2 * std::sqrt(2.0) * random_.normal();
      if (std::fabs(e_n(one.error + noise, expanded_of_a_check, 0, expanded_of_a_check)) > 1) return true;
    }
    return since >= one.interval;
  }

  void calibrate(Calibrator& one, double since) {
    const double found = one.error + 0.1 * random_.normal();
    const bool is_in = std::fabs(found) <= tolerance;
    results_.push_back({since, is_in});
    if (one.age_d > counted_from * days_a_year) ++calibrations_, in_ += is_in ? 1 : 0;
    note(one, found, since);
    if (!is_in) one.error -= found, one.was_adjusted = true;
    one.found.last_left = is_in ? found : one.error;
    one.interval = std::max(shortest, next_interval(one, found));
  }

  // As a book has it: the errors, and, once it was adjusted, the steps from calibration to calibration.
  void note(Calibrator& one, double found, double since) {
    SeriesPoint point;
    point.at = static_cast<Moment>(one.age_d) * static_cast<Moment>(seconds_a_day);
    point.value = found;
    point.kind = PointKind::calibration;
    if (!one.found.points.empty()) one.found.steps.push_back({since, found - one.found.last_left});
    one.found.points.push_back(point);
    one.found.phases.clear();
    cut_into_phases(one.found, {});
  }

  double next_interval(const Calibrator& one, double found) {
    switch (method_) {
      case Method::as_it_is:
      case Method::in_use_time:
      case Method::in_service_check:
        return first_interval;
      case Method::staircase: {
        const double next = staircase(one.interval, std::fabs(found), tolerance, StaircaseDesign{}).interval;
        return std::min(next, longest_interval_days);
      }
      case Method::control_chart:
        return by_forecast(one);
      case Method::reliability:
        return by_reliability();
    }
    return first_interval;
  }

  double by_forecast(const Calibrator& one) {
    Series series = one.found;
    if (!one.was_adjusted) series.steps.clear();
    const Forecast forecast = forecast_of(series, one.interval);
    if (!forecast.trend || forecast.trend->n < fewest_points_of_a_trend || !forecast.crossing) return first_interval;
    return std::min(std::max(0.0, forecast.crossing->earliest - forecast.last_day), longest_interval_days);
  }

  double by_reliability() {
    if (results_.size() < fewest_results_of_a_share) return first_interval;
    if (results_.size() >= looked_at_ + fleet_size) {  // about as often as somebody would look
      looked_at_ = results_.size();
      advised_ = std::min(interval_for_target(failure_rate_of(results_), reliability_target), longest_interval_days);
    }
    return advised_;
  }

  Method method_;
  Habit habit_;
  RandomNumbers& random_;
  std::vector<IntervalResult> results_;  // of the whole fleet
  std::size_t looked_at_ = 0;            // so many of them, the last time
  double advised_ = first_interval;
  std::size_t calibrations_ = 0;
  std::size_t in_ = 0;
};

struct Named {
  Method method;
  const char* name;
};
constexpr Named methods[] = {
    {Method::as_it_is, "a year, whatever is found"}, {Method::staircase, "staircase"},
    {Method::control_chart, "control-chart"},        {Method::in_use_time, "in-use-time"},
    {Method::in_service_check, "in-service-check"},  {Method::reliability, "reliability-target"}};
struct Kind {
  Habit habit;
  const char* name;
};
constexpr Kind habits[] = {{Habit::drifts, "drift evenly"},
                           {Habit::wanders, "wander"},
                           {Habit::is_knocked, "are knocked"},
                           {Habit::wears, "wear with use"}};

void print(const Kind& kind, const Named& method, RandomNumbers& random) {
  std::vector<double> shares;
  double calibrations = 0;
  for (std::size_t i = 0; i < fleets; ++i) {
    FleetYears fleet(method.method, kind.habit, random);
    fleet.run();
    shares.push_back(fleet.share_in_tolerance());
    calibrations += fleet.calibrations_a_year() / fleets;
  }
  double mean = 0;
  for (const double share : shares) mean += share / fleets;
  const auto kept = std::ranges::count_if(shares, [](double share) { return share >= reliability_target; });
  std::printf("| %s | %s | %.0f %% | %.0f %% | %.2f |\n", kind.name, method.name, 100 * mean,
              100.0 * static_cast<double>(kept) / fleets, calibrations);
  std::fflush(stdout);
}

}  // namespace
}  // namespace driftwarden::test

int main(int argc, char** argv) {
  using namespace driftwarden::test;
  RandomNumbers random(argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 1);
  std::printf(
      "| calibrators | method | found in tolerance | fleets with 90 %% or more | calibrations a year |\n"
      "|---|---|--:|--:|--:|\n");
  for (const Kind& kind : habits) {
    for (const Named& method : methods) print(kind, method, random);
  }
  return EXIT_SUCCESS;
}

// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "history/interval_opinion.hpp"
#include "statistics/calibration_interval.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::test {

// What a fleet of calibrators goes by when it sets the next interval.
enum class IntervalMethod {
  as_it_is,
  staircase,
  control_chart,
  in_use_time,
  in_service_check,
  reliability,
  as_recommended,  // of the staircase, the control chart and the share of their kind: what certificates can tell
  as_recommended_with_checks
};

enum class Habit { drifts, wanders, is_knocked, wears };

// Invented, as all that calibrators do here.
struct CalibratorYears {
  IntervalMethod method = IntervalMethod::as_it_is;
  Habit habit = Habit::drifts;
  std::size_t calibrators = 25;
  double years = 15;
  double counted_from = 5;  // years; before that a method learns
};

struct Kept {
  double share_in_tolerance = 0;   // of calibrations
  double calibrations_a_year = 0;  // of one calibrator
};

// A fleet that comes back when its intervals end, is adjusted where it is found beyond its tolerance, and goes out for
// as long as the method says.
class CalibratorFleet {
 public:
  CalibratorFleet(const CalibratorYears& of, RandomNumbers& random) : of_(of), random_(random) {}

  Kept kept() {
    std::vector<Calibrator> fleet(of_.calibrators);
    for (Calibrator& one : fleet) begin(one);
    const auto days = static_cast<int>(of_.years * days_a_year);
    for (int day = 1; day <= days; ++day) {
      for (Calibrator& one : fleet) {
        live_a_day(one);
        if (is_due(one)) calibrate(one);
      }
    }
    const double calibrations = static_cast<double>(calibrations_);
    return {static_cast<double>(in_) / calibrations,
            calibrations / (static_cast<double>(of_.calibrators) * (of_.years - of_.counted_from))};
  }

 private:
  static constexpr double days_a_year = 365.25;
  static constexpr double tolerance = 2;         // percent
  static constexpr double first_interval = 365;  // days, in force at the beginning
  static constexpr double shortest = 30;         // nobody calibrates more often, whatever is advised
  static constexpr double usual_hours = 200;     // in use in a year, of a usual one

  struct Calibrator {
    double error = 0;  // percent, true
    double drift_a_year = 0;
    double hours_a_year = 0;  // in use
    double age_d = 0;         // days since the beginning
    double since_d = 0;       // days since its calibration
    double hours = 0;         // in use since then
    double interval = first_interval;
    Series found;  // its errors as found
    std::vector<CalibrationStep> steps;
    std::vector<PhaseStart> adjustments;
  };

  void begin(Calibrator& one) {
    one.error = 0.2 * random_.normal();
    one.hours_a_year = usual_hours * std::exp(0.5 * random_.normal());
    if (of_.habit == Habit::drifts) one.drift_a_year = 0.8 * random_.normal();
    if (of_.habit == Habit::wears) one.drift_a_year = 0.8 * one.hours_a_year / usual_hours;
    one.found = empty_series("as-found-error", "Error as found, worst point", "%");
    one.found.tolerance = {-tolerance, tolerance, "certificate"};
    one.found.is_by_day = true;
  }

  void live_a_day(Calibrator& one) {
    one.age_d += 1;
    one.since_d += 1;
    one.hours += one.hours_a_year / days_a_year;
    one.error += one.drift_a_year / days_a_year;
    const double wander_a_year = of_.habit == Habit::wanders ? 1.0 : 0.2;
    one.error += wander_a_year / std::sqrt(days_a_year) * random_.normal();
    constexpr double knocks_a_year = 0.15;
    if (of_.habit == Habit::is_knocked && random_.uniform() < knocks_a_year / days_a_year)
      one.error += random_.uniform() < 0.5 ? 4 : -4;
  }

  bool is_checked() const {
    return of_.method == IntervalMethod::in_service_check || of_.method == IntervalMethod::as_recommended_with_checks;
  }

  // Two calibrators on one pump, each with its own uncertainty.
  bool disagrees(const Calibrator& one) {
    constexpr double expanded = 0.7;  // percent, on either side
    const double noise = expanded / 2 * std::sqrt(2.0) * random_.normal();
    return std::fabs(e_n(one.error + noise, expanded, 0, expanded)) > 1;
  }

  bool is_due(const Calibrator& one) {
    constexpr double days_between_checks = 30;
    if (of_.method == IntervalMethod::in_use_time)
      return one.hours >= usual_hours || one.since_d >= longest_interval_days;
    if (is_checked() && std::fmod(one.since_d, days_between_checks) < 1 && disagrees(one)) return true;
    return one.since_d >= one.interval;
  }

  void calibrate(Calibrator& one) {
    const double error = one.error + 0.1 * random_.normal();
    const bool is_in = std::fabs(error) <= tolerance;
    results_.push_back({one.since_d, is_in});
    if (one.age_d > of_.counted_from * days_a_year) ++calibrations_, in_ += is_in ? 1 : 0;
    note(one, error, is_in);
    one.interval = std::max(shortest, next_interval(one));
    one.since_d = one.hours = 0;
  }

  // As a book has it: the errors, a phase from each adjustment on, and, once there was one, the steps from calibration
  // to calibration.
  static void note(Calibrator& one, double error, bool is_in) {
    Series& found = one.found;
    if (!found.points.empty()) one.steps.push_back({one.since_d, error - found.last_left});
    SeriesPoint point;
    point.at = static_cast<Moment>(one.age_d) * static_cast<Moment>(seconds_a_day);
    point.value = error;
    point.kind = PointKind::calibration;
    found.points.push_back(point);
    cut_into_phases(found, one.adjustments);
    if (!is_in) one.error -= error, one.adjustments.push_back({point.at + 1, "adjusted"});
    if (!one.adjustments.empty()) found.steps = one.steps;
    found.last_left = is_in ? error : one.error;
  }

  double next_interval(const Calibrator& one) {
    const Forecast forecast = forecast_of(one.found, one.interval);
    const FoundErrors found{&one.found, &forecast, one.interval, static_cast<Day>(one.age_d)};
    switch (of_.method) {
      case IntervalMethod::as_it_is:
      case IntervalMethod::in_use_time:
      case IntervalMethod::in_service_check:
        break;
      case IntervalMethod::staircase:
        return followed(one, staircase_opinion(found));
      case IntervalMethod::control_chart:
        return followed(one, control_chart_opinion(found));
      case IntervalMethod::reliability:
        return followed(one, of_its_kind());
      case IntervalMethod::as_recommended:
      case IntervalMethod::as_recommended_with_checks: {
        const std::vector<IntervalOpinion> all{staircase_opinion(found), control_chart_opinion(found), of_its_kind()};
        return followed(one, *recommended(all));
      }
    }
    return first_interval;
  }

  static double followed(const Calibrator& one, const IntervalOpinion& opinion) {
    return is_missing(opinion.advice_days) ? one.interval : opinion.advice_days;
  }

  // The share of its kind, asked anew after as many results as there are calibrators.
  const IntervalOpinion& of_its_kind() {
    if (!of_kind_ || results_.size() >= asked_at_ + of_.calibrators) {
      of_kind_ = reliability_opinion(results_);
      asked_at_ = results_.size();
    }
    return *of_kind_;
  }

  CalibratorYears of_;
  RandomNumbers& random_;
  std::vector<IntervalResult> results_;  // of the whole fleet
  std::optional<IntervalOpinion> of_kind_;
  std::size_t asked_at_ = 0;
  std::size_t calibrations_ = 0;
  std::size_t in_ = 0;
};

}  // namespace driftwarden::test

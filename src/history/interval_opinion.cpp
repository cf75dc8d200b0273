// SPDX-License-Identifier: MIT
#include "history/interval_opinion.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "diagnostic/joined.hpp"
#include "quantity/number.hpp"
#include "statistics/calibration_interval.hpp"

namespace driftwarden {
namespace {

double permissible_error(const Series& found) {
  return std::min(std::fabs(found.tolerance.lower), std::fabs(found.tolerance.upper));
}

// Notes what stands in no certificate; true where nothing is lacking.
bool has_basis(const FoundErrors& found, IntervalOpinion& opinion) {
  if (found.series == nullptr) opinion.lacks.emplace_back("a certificate with an error as found");
  if (found.series != nullptr && !found.series->tolerance.is_stated()) opinion.lacks.emplace_back("a tolerance");
  if (is_missing(found.interval))
    opinion.lacks.emplace_back("the interval in force: a due date or the instrument's interval");
  return opinion.lacks.empty();
}

// Days from the last calibration to the earliest on which it may be beyond its tolerance; none: no such day.
std::optional<double> days_until_crossing(const Forecast& forecast) {
  if (!forecast.crossing) return std::nullopt;
  return std::max(0.0, forecast.crossing->earliest - forecast.last_day);
}

// Why a good result makes no longer interval; "" where it does.
std::string why_not_longer(const FoundErrors& found, double longer) {
  const std::size_t n = found.series->phases.back().count;
  if (n < fewest_results_to_lengthen)
    return "a longer interval takes " + std::to_string(fewest_results_to_lengthen) + " results, of which there " +
           (n == 1 ? "is " : "are ") + std::to_string(n);
  const std::optional<double> until = days_until_crossing(*found.forecast);
  return until && *until < longer ? "by its trend it may leave it before a longer interval ends" : "";
}

void lengthen(IntervalOpinion& opinion, const FoundErrors& found, double longer) {
  const std::string why_not = why_not_longer(found, longer);
  if (!why_not.empty()) {
    advise_as_it_is(opinion, found.interval, "it came back well inside its tolerance, but " + why_not);
  } else {
    advise(opinion, longer, "it came back well inside its tolerance, so longer",
           std::max(found.interval, longest_interval_days));
  }
}

}  // namespace

std::string with_unit(double value, const std::string& unit) {
  return shortest(std::round(value * 1000) / 1000) + " " + unit;
}

std::string in_days(double value) { return shortest(std::round(value)) + " d"; }

void advise(IntervalOpinion& opinion, double advice, const std::string& remark, double longest) {
  opinion.advice_days = std::min(advice, longest);
  opinion.remark = remark;
  if (advice < shortest_interval_days)
    opinion.remark +=
        "; below " + in_days(shortest_interval_days) + ", the shortest that is practical, and not raised to it";
  if (advice > longest) opinion.remark += "; no longer than " + in_days(longest);
}

void advise_as_it_is(IntervalOpinion& opinion, double interval, const std::string& why) {
  opinion.advice_days = interval;
  opinion.remark = why + ", so it stays as it is";
}

IntervalOpinion staircase_opinion(const FoundErrors& found) {
  IntervalOpinion opinion{"staircase", missing, {}, {}, {}};
  if (!has_basis(found, opinion)) return opinion;
  const SeriesPoint& last = found.series->points.back();
  const double permissible = permissible_error(*found.series);
  const IntervalAdvice advice = staircase(found.interval, std::fabs(last.value), permissible, StaircaseDesign{});
  switch (advice.step) {
    case IntervalStep::extend:
      lengthen(opinion, found, advice.interval);
      break;
    case IntervalStep::keep:
      advise_as_it_is(opinion, found.interval, "it came back inside its tolerance");
      break;
    case IntervalStep::reduce:
      advise(opinion, advice.interval, "it came back out of tolerance, so shorter");
      opinion.is_a_limit = true;
      break;
  }
  opinion.from = {last.from + ": " + with_unit(last.value, found.series->unit) + " as found",
                  "tolerance " + with_unit(permissible, found.series->unit), "interval " + in_days(found.interval)};
  return opinion;
}

IntervalOpinion control_chart_opinion(const FoundErrors& found) {
  IntervalOpinion opinion{"control-chart", missing, {}, {}, {}};
  if (!has_basis(found, opinion)) return opinion;
  const std::optional<Trend>& trend = found.forecast->trend;
  const std::size_t n = trend ? trend->n : found.series->counted();
  if (n < fewest_points_of_a_trend) {
    opinion.lacks.push_back(std::to_string(fewest_points_of_a_trend) + " errors as found, to tell a trend; there are " +
                            std::to_string(n));
    return opinion;
  }
  opinion.from = {std::to_string(n) + " points, " + trend->method,
                  "tolerance " + with_unit(permissible_error(*found.series), found.series->unit)};
  if (const std::optional<double> until = days_until_crossing(*found.forecast)) {
    advise(opinion, *until, "the earliest day on which it may leave its tolerance by the forecast");
    opinion.is_a_limit = true;
    if (found.forecast->crossing->earliest < found.as_of)
      opinion.remark += "; that day is past: it may be beyond it already";
  } else {
    advise_as_it_is(opinion, found.interval, found.forecast->said);
  }
  return opinion;
}

IntervalOpinion reliability_opinion(const std::vector<IntervalResult>& results) {
  IntervalOpinion opinion{"reliability-target", missing, {}, {}, {}};
  const auto in_tolerance = std::ranges::count(results, true, &IntervalResult::is_in_tolerance);
  opinion.from = {std::to_string(in_tolerance) + " of " + std::to_string(results.size()) +
                  " recalibrations of its kind in tolerance"};
  if (results.size() < fewest_results_of_a_share) {
    opinion.lacks.push_back(std::to_string(fewest_results_of_a_share) +
                            " recalibrations of instruments of its kind; there are " + std::to_string(results.size()));
    return opinion;
  }
  advise(opinion, interval_for_target(failure_rate_of(results), reliability_target),
         "so that " + with_unit(100 * reliability_target, "%") + " are in tolerance still when they come back");
  return opinion;
}

const IntervalOpinion* recommended(const std::vector<IntervalOpinion>& opinions) {
  const IntervalOpinion* base = nullptr;
  for (const std::string_view method : {"reliability-target", "staircase", "control-chart", "in-service-check"}) {
    const auto found = std::ranges::find(opinions, method, &IntervalOpinion::method);
    const bool has_figure = found != opinions.end() && !is_missing(found->advice_days);
    if (base == nullptr && has_figure) base = &*found;
  }
  for (const IntervalOpinion& opinion : opinions) {
    if (!opinion.is_a_limit || is_missing(opinion.advice_days)) continue;
    if (base == nullptr || opinion.advice_days < base->advice_days) base = &opinion;
  }
  return base;
}

std::string said_of(const IntervalOpinion& opinion) {
  return (opinion.advice_days > 0 ? in_days(opinion.advice_days) : "now") + " by " + opinion.method + ": " +
         opinion.remark + " (" + joined(opinion.from, ", ") + ")";
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "history/interval_advice.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "book/timestamp.hpp"
#include "correction/due.hpp"
#include "history/certificate_series.hpp"
#include "quantity/number.hpp"
#include "statistics/calibration_interval.hpp"
#include "statistics/reliability.hpp"

namespace driftwarden {
namespace {

std::string with_unit(double value, const std::string& unit) {
  return shortest(std::round(value * 1000) / 1000) + " " + unit;
}

std::string days(double value) { return shortest(std::round(value)) + " d"; }

// Never longer than what it was computed from bears: where that is shorter than is practical, it is said, and the owner
// decides. Nor longer than `longest`.
void advise(IntervalOpinion& opinion, double advice, const std::string& remark, double longest) {
  opinion.advice_days = std::min(advice, longest);
  opinion.remark = remark;
  if (advice < shortest_interval_days)
    opinion.remark +=
        "; below " + days(shortest_interval_days) + ", the shortest that is practical, and not raised to it";
  if (advice > longest) opinion.remark += "; no longer than " + days(longest);
}

// The interval in force, whatever its length.
void advise_as_it_is(IntervalOpinion& opinion, double interval, const std::string& why) {
  opinion.advice_days = interval;
  opinion.remark = why + ": as it is";
}

double permissible_error(const IntervalFacts& facts) {
  if (facts.as_found == nullptr) return missing;
  const Tolerance& tolerance = facts.as_found->tolerance;
  return std::min(std::fabs(tolerance.lower), std::fabs(tolerance.upper));
}

// Notes what stands in no certificate; true where nothing is lacking.
bool has_basis(const IntervalFacts& facts, double interval, IntervalOpinion& opinion) {
  if (facts.as_found == nullptr) opinion.lacks.emplace_back("a certificate with an error as found");
  if (facts.as_found != nullptr && !facts.as_found->tolerance.is_stated()) opinion.lacks.emplace_back("a tolerance");
  if (is_missing(interval))
    opinion.lacks.emplace_back("the interval in force: a due date or the instrument's interval");
  return opinion.lacks.empty();
}

IntervalOpinion by_staircase(const IntervalFacts& facts, double interval) {
  IntervalOpinion opinion{"staircase", missing, {}, {}, {}};
  if (!has_basis(facts, interval, opinion)) return opinion;
  const SeriesPoint& last = facts.as_found->points.back();
  const std::string& unit = facts.as_found->unit;
  const IntervalAdvice advice = staircase(interval, std::fabs(last.value), permissible_error(facts), StaircaseDesign{});
  switch (advice.step) {
    case IntervalStep::extend:
      advise(opinion, advice.interval, "well inside its tolerance: longer", std::max(interval, longest_interval_days));
      break;
    case IntervalStep::keep:
      advise_as_it_is(opinion, interval, "inside its tolerance");
      break;
    case IntervalStep::reduce:
      advise(opinion, advice.interval, "out of tolerance: shorter", longest_interval_days);
      opinion.is_a_limit = true;
      break;
  }
  opinion.from = {last.from + ": " + with_unit(last.value, unit) + " as found",
                  "tolerance " + with_unit(permissible_error(facts), unit), "interval " + days(interval)};
  return opinion;
}

IntervalOpinion by_control_chart(const IntervalFacts& facts, double interval) {
  IntervalOpinion opinion{"control-chart", missing, {}, {}, {}};
  if (!has_basis(facts, interval, opinion)) return opinion;
  const std::optional<Trend>& trend = facts.forecast->trend;
  const std::size_t n = trend ? trend->n : facts.as_found->counted();
  if (n < fewest_points_of_a_trend) {
    opinion.lacks.push_back(std::to_string(fewest_points_of_a_trend) + " errors as found, to tell a trend; there are " +
                            std::to_string(n));
    return opinion;
  }
  opinion.from = {std::to_string(n) + " points, " + trend->method,
                  "tolerance " + with_unit(permissible_error(facts), facts.as_found->unit)};
  if (facts.forecast->crossing) {
    const Crossing& crossing = *facts.forecast->crossing;
    advise(opinion, std::max(0.0, crossing.earliest - facts.forecast->last_day),
           "the earliest day on which it may leave its tolerance by the forecast", longest_interval_days);
    opinion.is_a_limit = true;
    if (crossing.earliest < facts.as_of) opinion.remark += "; that day is past: it may be beyond it already";
  } else {
    advise_as_it_is(opinion, interval, facts.forecast->said);
  }
  return opinion;
}

// What hours in use need; true where nothing is lacking.
bool has_use(const IntervalFacts& facts, const std::vector<const Certificate*>& certificates, double days_so_far,
             IntervalOpinion& opinion) {
  const Instrument& instrument = facts.screening.book().instruments[facts.instrument];
  if (instrument.kind != InstrumentKind::calibrator) {
    opinion.lacks.emplace_back("readings, which tell hours in use of a calibrator only");
    return false;
  }
  if (!instrument.permitted_use_h)
    opinion.lacks.emplace_back("hours in use that are permitted: the column permitted use of instruments.csv");
  if (certificates.empty()) opinion.lacks.emplace_back("a certificate");
  if (!certificates.empty() && days_so_far < fewest_days_of_a_pace)
    opinion.lacks.push_back(days(fewest_days_of_a_pace) + " since its calibration, to tell a pace; there are " +
                            shortest(days_so_far));
  return opinion.lacks.empty();
}

IntervalOpinion by_use(const IntervalFacts& facts) {
  IntervalOpinion opinion{"in-use-time", missing, {}, {}, {}};
  const Book& book = facts.screening.book();
  const std::vector<const Certificate*> certificates = certificates_of(book, facts.instrument, facts.as_of);
  const Day calibrated = certificates.empty() ? facts.as_of : certificates.back()->calibrated;
  const auto days_so_far = static_cast<double>(facts.as_of - calibrated);
  if (!has_use(facts, certificates, days_so_far, opinion)) return opinion;
  const double permitted = *book.instruments[facts.instrument].permitted_use_h;
  const double used = hours_in_use(facts.log, facts.instrument, calibrated, book.settings.zone);
  const double left = days_until_used_up(permitted, used, days_so_far);
  advise(opinion, days_so_far + left,
         left > 0 ? "until its permitted hours are used up, at the pace so far" : "its permitted hours are used up",
         longest_interval_days);
  opinion.is_a_limit = true;
  opinion.from = {with_unit(std::round(10 * used) / 10, "h") + " in use in " + days(days_so_far) + " by its readings",
                  "permitted " + with_unit(permitted, "h")};
  return opinion;
}

// The newest comparison of the instrument that has uncertainties on both sides.
const Comparison* newest_comparison(const IntervalFacts& facts) {
  const Comparison* newest = nullptr;
  for (const Comparison& comparison : facts.comparisons) {
    const bool is_of_it = comparison.earlier == facts.instrument || comparison.later == facts.instrument;
    const double joint =
        comparison.earlier_check->expanded_uncertainty_l_min + comparison.later_check->expanded_uncertainty_l_min;
    if (is_of_it && !is_missing(joint) && (newest == nullptr || comparison.at >= newest->at)) newest = &comparison;
  }
  return newest;
}

IntervalOpinion by_checks(const IntervalFacts& facts, double interval) {
  IntervalOpinion opinion{"in-service-check", missing, {}, {}, {}};
  const Comparison* newest = newest_comparison(facts);
  if (newest == nullptr) {
    opinion.lacks.emplace_back(
        "a comparison with another calibrator within the hour, with uncertainties on both sides");
    return opinion;
  }
  const PumpCheck& a = *newest->earlier_check;
  const PumpCheck& b = *newest->later_check;
  const double score = e_n(b.flow_l_min, b.expanded_uncertainty_l_min, a.flow_l_min, a.expanded_uncertainty_l_min);
  const std::vector<Instrument>& instruments = facts.screening.book().instruments;
  opinion.from = {instruments[newest->later].name + " against " + instruments[newest->earlier].name +
                      (newest->sample == no_row ? ", for no sample"
                                                : ", sample " + name_of_sample(facts.screening, newest->sample)),
                  "E_n " + shortest(std::round(100 * score) / 100)};
  if (std::fabs(score) > 1) {
    opinion.advice_days = 0;
    opinion.remark = "the two disagree: calibrate whichever is wrong now";
    opinion.is_a_limit = true;
  } else if (is_missing(interval)) {
    opinion.lacks.emplace_back("the interval in force: a due date or the instrument's interval");
  } else {
    advise_as_it_is(opinion, interval, "the two agree");
  }
  return opinion;
}

// A result is in tolerance where the certificate's own holds at every point.
void append_results(std::vector<IntervalResult>& results, const std::vector<const Certificate*>& certificates) {
  for (std::size_t i = 1; i < certificates.size(); ++i) {
    const std::optional<bool> is_in = is_found_in_tolerance(*certificates[i]);
    const auto days = static_cast<double>(certificates[i]->calibrated - certificates[i - 1]->calibrated);
    if (is_in && days > 0) results.push_back({days, *is_in});
  }
}

IntervalOpinion by_reliability(const IntervalFacts& facts) {
  IntervalOpinion opinion{"reliability-target", missing, {}, {}, {}};
  const Book& book = facts.screening.book();
  const Instrument& instrument = book.instruments[facts.instrument];
  std::vector<IntervalResult> results;  // of all instruments of the same kind and principle
  for (Row row = 0; row < book.instruments.size(); ++row) {
    const bool is_alike =
        book.instruments[row].kind == instrument.kind && book.instruments[row].principle == instrument.principle;
    if (is_alike) append_results(results, certificates_of(book, row, facts.as_of));
  }
  const auto in_tolerance = std::ranges::count(results, true, &IntervalResult::is_in_tolerance);
  opinion.from = {std::to_string(in_tolerance) + " of " + std::to_string(results.size()) +
                  " recalibrations of its kind in tolerance"};
  if (results.size() < fewest_results_of_a_share) {
    opinion.lacks.push_back(std::to_string(fewest_results_of_a_share) +
                            " recalibrations of instruments of its kind; there are " + std::to_string(results.size()));
    return opinion;
  }
  advise(opinion, interval_for_target(failure_rate_of(results), reliability_target),
         "so that " + with_unit(100 * reliability_target, "%") + " are in tolerance still when they come back",
         longest_interval_days);
  return opinion;
}

}  // namespace

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
  std::string from;
  for (const std::string& one : opinion.from) from += (from.empty() ? "" : ", ") + one;
  return (opinion.advice_days > 0 ? days(opinion.advice_days) : "now") + " by " + opinion.method + ": " +
         opinion.remark + " (" + from + ")";
}

double hours_in_use(const UseLog& log, Row calibrator, Day after, const TimeZone& zone) {
  constexpr double seconds_an_hour = 3600;
  constexpr double least_h = 0.25;
  double hours = 0;
  for (const PumpCheck& check : log.checks) {
    if (check.calibrator != calibrator || local_day(check.first, zone) <= after) continue;
    hours += std::max(least_h, static_cast<double>(check.last - check.first) / seconds_an_hour);
  }
  return hours;
}

double interval_in_force(const Book& book, Row instrument, Day as_of) {
  const std::vector<const Certificate*> certificates = certificates_of(book, instrument, as_of);
  if (!certificates.empty()) {
    const Day due = due_day(*certificates.back(), book.instruments[instrument]);
    if (due != no_day) return static_cast<double>(due - certificates.back()->calibrated);
  }
  return book.instruments[instrument].interval_d.value_or(missing);
}

std::vector<IntervalOpinion> interval_opinions(const IntervalFacts& facts) {
  const double interval = interval_in_force(facts.screening.book(), facts.instrument, facts.as_of);
  return {by_staircase(facts, interval), by_control_chart(facts, interval), by_use(facts), by_checks(facts, interval),
          by_reliability(facts)};
}

}  // namespace driftwarden

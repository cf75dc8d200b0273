// SPDX-License-Identifier: MIT
#include "history/interval_advice.hpp"

#include <algorithm>
#include <cmath>

#include "book/stamp_text.hpp"
#include "correction/due.hpp"
#include "history/certificate_series.hpp"
#include "quantity/number.hpp"
#include "statistics/calibration_interval.hpp"

namespace driftwarden {
namespace {

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
    opinion.lacks.push_back(in_days(fewest_days_of_a_pace) + " since its calibration, to tell a pace; there are " +
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
         left > 0 ? "until its permitted hours are used up, at the pace so far" : "its permitted hours are used up");
  opinion.is_a_limit = true;
  opinion.from = {
      with_unit(std::round(10 * used) / 10, "h") + " in use in " + in_days(days_so_far) + " by its readings",
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
  const Book& book = facts.screening.book();
  const Instrument& instrument = book.instruments[facts.instrument];
  std::vector<IntervalResult> results;  // of all instruments of the same kind and principle
  for (Row row = 0; row < book.instruments.size(); ++row) {
    const bool is_alike =
        book.instruments[row].kind == instrument.kind && book.instruments[row].principle == instrument.principle;
    if (is_alike) append_results(results, certificates_of(book, row, facts.as_of));
  }
  return reliability_opinion(results);
}

}  // namespace

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
  const FoundErrors found{facts.as_found, facts.forecast, interval, facts.as_of};
  return {staircase_opinion(found), control_chart_opinion(found), by_use(facts), by_checks(facts, interval),
          by_reliability(facts)};
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "history/fleet_risk.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "assessment/more_readings.hpp"
#include "statistics/global_risk.hpp"
#include "statistics/median.hpp"
#include "verdict/sample_days.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {
namespace {

constexpr Day days_a_year = 365;
// Of more samples than these every second, third and so on is looked at: as good, and no slower for a large book.
constexpr std::size_t most_looked_at = 1000;

// What one sample tells of one rule.
struct Held {
  double figure = missing;
  Limit limit;
  KnownTo known;
  KnownTo known_with_more;
  bool passes = false;   // outside any guard band
  bool is_kept = false;  // or inside it
};

bool is_asked(const Rule& rule) {
  const Measure& measure = measure_of(rule);
  const bool is_read = measure.leans_on.pre || measure.leans_on.post;
  return rule.of == Subject::sample && rule.otherwise != Otherwise::note && is_read &&
         measure.knowledge == Knowledge::stated && !is_of_words(rule.limit.form);
}

// The days of a year up to the newest sample that has come.
std::vector<Row> samples_of_a_year(const Book& book, Day as_of, FleetRisk& risk) {
  const SampleDays days(book, as_of);
  std::vector<Row> rows;
  for (Row sample = 0; sample < book.samples.size(); ++sample) {
    const Day day = days.day_of(sample);
    if (day == no_day || day > as_of || book.samples.kind[sample] == SampleKind::blank) continue;
    rows.push_back(sample);
    risk.to = std::max(risk.to, day);
  }
  std::erase_if(rows, [&](Row sample) { return days.day_of(sample) <= risk.to - days_a_year; });
  for (const Row sample : rows)
    risk.from = risk.from == no_day ? days.day_of(sample) : std::min(risk.from, days.day_of(sample));
  return rows;
}

class Gathering {
 public:
  Gathering(const Screening& screening, std::size_t more)
      : screening_(screening), judge_(screening, true), more_(more) {}

  void add(Row sample) {
    const SampleResult& result = judge_.judge(sample);
    const Budget with_more = with_more_readings(result.budget, *result.figures, more_);
    for (const auto* some : {&result.findings, &result.kept}) {
      for (const Finding& finding : *some) {
        if (finding.rule == Finding::faulty_records || is_missing(finding.judgement.figure)) continue;
        const Rule& rule = screening_.rules().rules[finding.rule];
        if (is_asked(rule)) held_[finding.rule].push_back(held_to(rule, finding.judgement, result, with_more));
      }
    }
  }

  std::map<std::uint32_t, std::vector<Held>>& held() { return held_; }

 private:
  Held held_to(const Rule& rule, const Judgement& judgement, const SampleResult& result,
               const Budget& with_more) const {
    const Limit limit = has_alternative(rule.limit) ? limit_held_to(rule, judgement) : rule.limit;
    return {judgement.figure,
            limit,
            known_to(rule, screening_.context(*result.figures, result.budget)),
            known_to(rule, screening_.context(*result.figures, with_more)),
            judgement.outcome == Outcome::met,
            judgement.outcome == Outcome::met || judgement.margin > 0};
  }

  const Screening& screening_;
  SampleJudge judge_;
  std::size_t more_;
  std::map<std::uint32_t, std::vector<Held>> held_;
};

Bounds narrowed(const Limit& limit, double by) { return {limit.low + by, limit.high - by}; }

// Adds what becomes of `weight` samples like this one.
void add_part(YearOfRisk& year, const Held& like, const TrueValuePart& truly, double weight) {
  const KnownTo& known = year.more > 0 ? like.known_with_more : like.known;
  const MeasuredPopulation of{truly.mean, truly.s, known.u};
  const Bounds tolerance = narrowed(like.limit, 0);
  const GlobalRisk at_the_limit = global_risk(of, tolerance, tolerance);
  const GlobalRisk guarded = global_risk(of, tolerance, narrowed(like.limit, year.guard * known.expanded));
  year.beyond += weight * guarded.beyond;
  year.passed += weight * guarded.accepted_beyond;
  year.not_kept += weight * at_the_limit.rejected_within;
  year.held_up += weight * std::max(0.0, guarded.rejected_within - at_the_limit.rejected_within);
}

YearOfRisk year_of(const RuleRisk& risk, const std::vector<Held>& held, double guard, std::size_t more) {
  YearOfRisk year{guard, more};
  const double weight = risk.a_year / static_cast<double>(held.size());
  for (std::size_t i = 0; i < held.size(); ++i) add_part(year, held[i], risk.prior.parts[i], weight);
  return year;
}

// Each sample by its own reading, with no other knowledge.
RiskOfReadings risk_of_readings(const std::vector<Held>& held) {
  RiskOfReadings of;
  for (const Held& one : held) {
    const double beyond = probability_beyond(one.limit, one.figure, one.known);
    of.pass += one.passes ? 1U : 0U;
    of.passed_beyond += one.passes ? beyond : 0;
    of.fail += one.is_kept ? 0U : 1U;
    of.failed_within += one.is_kept ? 0 : 1 - beyond;
  }
  return of;
}

// What measuring adds to the spread of a fleet's figures. In a drift the calibrator's own error cancels, and the rest
// is new each time; in any other figure it is the same in many samples, and in their spread it is not.
std::vector<double> added_by_measuring(const Rule& rule, const std::vector<double>& u) {
  const bool is_drift = static_cast<SampleMeasure>(rule.measure) == SampleMeasure::drift;
  return is_drift ? u : std::vector<double>(u.size(), 0.0);
}

std::vector<Held> thinned(const std::vector<Held>& held) {
  const std::size_t step = held.size() / (most_looked_at + 1) + 1;
  std::vector<Held> some;
  for (std::size_t i = 0; i < held.size(); i += step) some.push_back(held[i]);
  return some;
}

RuleRisk risk_of(const Screening& screening, std::uint32_t number, const std::vector<Held>& held) {
  RuleRisk risk;
  risk.rule = number;
  risk.held = held.size();
  if (held.empty()) return risk;
  std::vector<double> figures;
  std::vector<double> u;
  for (const Held& one : thinned(held)) figures.push_back(one.figure), u.push_back(one.known.u);
  risk.prior = true_values_from(figures, added_by_measuring(screening.rules().rules[number], u));
  risk.u_least = *std::ranges::min_element(u);
  risk.u_median = median(u);
  risk.u_most = *std::ranges::max_element(u);
  risk.readings = risk_of_readings(held);
  return risk;
}

std::vector<YearOfRisk> years_of(const RuleRisk& risk, const std::vector<Held>& held, double now,
                                 const RiskTrial& trial) {
  std::vector<YearOfRisk> years;
  if (risk.prior.parts.empty()) return years;
  for (const std::size_t more : {std::size_t{0}, trial.more}) {
    if (more == 0 && !years.empty()) break;
    years.push_back(year_of(risk, held, now, more));
    if (trial.guard != now) years.push_back(year_of(risk, held, trial.guard, more));
  }
  return years;
}

}  // namespace

FleetRisk fleet_risk(const Screening& screening, Day as_of, const RiskTrial& trial) {
  FleetRisk fleet;
  Gathering gathering(screening, trial.more);
  for (const Row sample : samples_of_a_year(screening.book(), as_of, fleet)) gathering.add(sample);
  const double years = static_cast<double>(fleet.to - fleet.from + 1) / days_a_year;
  for (auto& [number, held] : gathering.held()) {
    const std::size_t without_u = std::erase_if(held, [](const Held& one) { return !(one.known.u > 0); });
    RuleRisk risk = risk_of(screening, number, held);
    risk.without_u = without_u;
    risk.a_year = static_cast<double>(held.size()) / years;
    risk.years = years_of(risk, thinned(held), screening.guard(), trial);
    fleet.rules.push_back(std::move(risk));
  }
  return fleet;
}

}  // namespace driftwarden

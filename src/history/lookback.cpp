// SPDX-License-Identifier: MIT
#include "history/lookback.hpp"

#include <algorithm>
#include <cmath>

#include "book/stamp_text.hpp"
#include "book/whereabouts.hpp"
#include "diagnostic/joined.hpp"
#include "history/lookback_remarks.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"

namespace driftwarden {
namespace {

// The certificate a reading leans on; nothing where no supposition is about it, or where it counts for nothing.
std::optional<std::int32_t> leaning_on(const Screening& supposed, Row reading) {
  const Book& book = supposed.book();
  const ReadingTable& readings = book.readings;
  const Row calibrator = readings.calibrator[reading];
  if (calibrator == no_row || readings.taken[reading] == no_moment) return std::nullopt;
  if (readings.is_void(reading)) return std::nullopt;
  const CalibratorKnowledge& known = supposed.basis().calibrators;
  const std::int32_t certificate = known.certificate_of(reading);
  if (known.supposed_curve(reading, certificate) == nullptr) return std::nullopt;
  return certificate;
}

// The samples that some leaning reading names, or whose pump one names: no others need to be assessed.
std::vector<bool> candidates(const Screening& supposed) {
  const Book& book = supposed.book();
  std::vector<bool> is_candidate(book.samples.size(), false);
  std::vector<bool> has_pump_reading(book.instruments.size(), false);
  for (Row reading = 0; reading < book.readings.size(); ++reading) {
    if (!leaning_on(supposed, reading)) continue;
    const Row sample = field(book.readings.sample, reading, no_row);
    const Row pump = field(book.readings.pump, reading, no_row);
    if (sample != no_row) {
      is_candidate[sample] = true;
    } else if (pump != no_row) {
      has_pump_reading[pump] = true;
    }
  }
  for (Row sample = 0; sample < book.samples.size(); ++sample) {
    const Row pump = book.samples.pump[sample];
    if (pump != no_row && has_pump_reading[pump]) is_candidate[sample] = true;
  }
  return is_candidate;
}

std::vector<LeaningSet> leaning_sets(const Screening& supposed, const SampleAssessment& figures) {
  std::vector<LeaningSet> leaning;
  for (std::size_t s = 0; s < figures.sets.size(); ++s) {
    const SetRows& set = figures.sets[s].rows;
    std::optional<std::int32_t> certificate;
    for (std::uint32_t i = set.begin; i < set.begin + set.count; ++i) {
      if (const auto one = leaning_on(supposed, figures.rows[i])) certificate = one;
    }
    const auto place = static_cast<std::int32_t>(s);
    if (certificate)
      leaning.push_back(
          {set.stage, set.calibrator, *certificate, place == figures.pre || place == figures.post, set.last});
  }
  return leaning;
}

Bearing bearing_of(const std::vector<LeaningSet>& sets, const SampleAssessment& figures) {
  if (figures.pre < 0 || figures.post < 0) return Bearing::incomplete;
  std::vector<const LeaningSet*> counting;
  for (const LeaningSet& set : sets) {
    if (set.counts) counting.push_back(&set);
  }
  if (counting.empty()) return Bearing::on_checks_only;
  const bool is_one = counting.size() == 2 && counting[0]->calibrator == counting[1]->calibrator &&
                      counting[0]->certificate == counting[1]->certificate;
  return is_one ? Bearing::on_the_volume : Bearing::on_drift_too;
}

bool is_about_drift(const Screening& screening, const Finding& finding) {
  if (finding.rule == Finding::faulty_records) return false;
  const Rule& rule = screening.rules().rules[finding.rule];
  return rule.of == Subject::sample && rule.measure == static_cast<std::size_t>(SampleMeasure::drift) &&
         !rule.limit.is_absolute;
}

JudgedSample judged(const Screening& screening, SampleJudge& judge, Row sample) {
  const SampleResult& result = judge.judge(sample);
  const SampleAssessment& f = *result.figures;
  JudgedSample made{f.flow_l_min,   f.drift, missing, f.volume_l, f.volume_reference_l, result.volume_expanded_l(),
                    result.verdict, {},      {}};
  made.volume_remarks = volume_remarks(screening, result);
  made.measured_volume_l = f.measured_volume_l;
  made.measured_expanded_l = result.budget.about(BudgetFigure::volume).expanded;
  for (const Finding& finding : result.findings) {
    if (is_about_drift(screening, finding)) made.drift_limit = finding.judgement.limit;
    made.findings.push_back(
        {rule_name(screening, finding), finding.judgement.outcome, message_of(screening, result, finding)});
  }
  return made;
}

bool is_same(double a, double b) {
  constexpr double least = 1e-9;  // relative, of a drift about 0 to a thousandth: what is less is the arithmetic's
  return (is_missing(a) && is_missing(b)) || std::fabs(a - b) <= least * std::max(std::fabs(b), 1e-3);
}

// Whether figures and findings are the same.
bool is_as(const JudgedSample& one, const JudgedSample& other) {
  for (const auto figure : {&JudgedSample::flow_l_min, &JudgedSample::drift, &JudgedSample::volume_l,
                            &JudgedSample::volume_reference_l, &JudgedSample::measured_volume_l}) {
    if (!is_same(one.*figure, other.*figure)) return false;
  }
  const auto is_in_both = [&](const ToldFinding& finding) { return holds(other, finding); };
  return one.findings.size() == other.findings.size() &&
         std::all_of(one.findings.begin(), one.findings.end(), is_in_both);
}

// Whoever had the calibrators of the sets, each once.
std::vector<std::string> had_by(const Whereabouts& where, const std::vector<LeaningSet>& sets, const TimeZone& zone) {
  std::vector<std::string> holders;
  for (const LeaningSet& set : sets) {
    std::string one = joined(where.had_by(set.calibrator, local_day(set.last, zone)), ", or ");
    if (!one.empty() && std::ranges::find(holders, one) == holders.end()) holders.push_back(std::move(one));
  }
  return holders;
}

std::vector<std::string> holders_of(const Whereabouts& where, const LookbackWindow& window) {
  std::vector<std::string> holders;
  for (const Issue* issue : where.issues_of(window.instrument)) {
    const Day end = where.end_of(*issue);
    const bool is_before = window.from != no_day && end != no_day && end < window.from;
    if (issue->out == no_day || issue->out >= window.until || is_before) continue;
    holders.push_back(holder_of(*issue) + ", from " + date_text(issue->out) +
                      (end == no_day ? "" : " to " + date_text(end)) +
                      (where.is_missing(*issue) ? "; missing since" : ""));
  }
  return holders;
}

}  // namespace

bool holds(const JudgedSample& judged, const ToldFinding& finding) {
  return std::any_of(judged.findings.begin(), judged.findings.end(), [&](const ToldFinding& other) {
    return other.rule == finding.rule && other.outcome == finding.outcome;
  });
}

bool LookedBackSample::verdict_changes() const {
  return sudden.verdict != before.verdict || (linear && linear->verdict != before.verdict);
}

Change LookedBackSample::change() const {
  if (before.verdict == Verdict::undecided) return Change::open_before;
  if (verdict_changes()) return Change::verdict;
  return is_as(sudden, before) && (!linear || is_as(*linear, before)) ? Change::nothing : Change::figures;
}

Lookback look_back(const Screening& screening, const LookbackWindow& window, Day as_of) {
  const Book& book = screening.book();
  Lookback lookback{window, leaning_certificates(screening, window), {}, {}, {}};
  const auto errors_under = [&](Supposition supposition) {
    return supposed_errors(screening, window, lookback.leaning, supposition);
  };
  const Screening sudden(book, screening.rules(), errors_under(Supposition::sudden));
  const bool is_open = window.last_good < 0;
  std::optional<Screening> linear;
  if (!is_open) linear.emplace(book, screening.rules(), errors_under(Supposition::linear));
  const Whereabouts where(book, as_of);
  lookback.holders = holders_of(where, window);
  SampleJudge judge_before(screening);
  SampleJudge judge_sudden(sudden);
  SampleJudge judge_linear(linear ? *linear : sudden);
  SampleAssessor assessor(screening.basis());
  const std::vector<bool> is_candidate = candidates(sudden);
  for (Row sample = 0; sample < book.samples.size(); ++sample) {
    if (!is_candidate[sample]) continue;
    const Moment started = book.samples.started[sample];
    if (started != no_moment && local_day(started, book.settings.zone) > as_of) continue;
    LookedBackSample looked;
    looked.sample = sample;
    const SampleAssessment& figures = assessor.assess(sample);
    looked.sets = leaning_sets(sudden, figures);
    if (looked.sets.empty()) continue;
    looked.bearing = bearing_of(looked.sets, figures);
    looked.had_by = had_by(where, looked.sets, book.settings.zone);
    looked.before = judged(screening, judge_before, sample);
    looked.sudden = judged(sudden, judge_sudden, sample);
    if (linear) looked.linear = judged(*linear, judge_linear, sample);
    lookback.samples.push_back(std::move(looked));
  }
  lookback.remarks = lookback_remarks(screening, lookback);
  return lookback;
}

}  // namespace driftwarden

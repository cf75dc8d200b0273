// SPDX-License-Identifier: MIT
#include "verdict/sample_judge.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "verdict/applicability.hpp"
#include "verdict/decision_risk.hpp"

namespace driftwarden {

SampleJudge::SampleJudge(const Screening& screening, bool keeps_all)
    : screening_(screening),
      keeps_all_(keeps_all),
      assessor_(screening.basis(), keeps_all ? Depth::steps : Depth::figures) {}

const SampleResult& SampleJudge::judge(Row sample) {
  result_.findings.clear();
  result_.near.clear();
  result_.kept.clear();
  result_.records_lacking = 0;
  result_.verdict = Verdict::valid;
  result_.figures = &assessor_.assess(sample);
  work_out_budget(screening_.basis(), *result_.figures, result_.budget);
  result_.results.clear();
  result_.problem = result_.figures->problem;
  if (!screening_.results().empty()) work_out_results();
  if (result_.problem != no_problem)
    add(Finding::faulty_records, {Outcome::undecided, missing, missing, missing}, no_row);
  // Where what its own records say can't be trusted, no rule is held to it.
  if (result_.figures->problem == no_problem) {
    for (std::uint32_t rule = 0; rule < screening_.rules().rules.size(); ++rule) judge_by(rule);
  }
  heed_decisions();
  return result_;
}

void SampleJudge::work_out_results() {
  const ResultIndex& index = screening_.results();
  if (result_.problem == no_problem) result_.problem = index.problem_of(result_.figures->sample);
  result_.results = laboratory_figures(index, screening_.basis(), *result_.figures, result_.budget);
}

void SampleJudge::heed_decisions() {
  result_.standing = result_.verdict;
  const auto& decisions = screening_.rulings().about(screening_.book().samples.name[result_.figures->sample]);
  if (decisions.empty()) return;
  result_.standing = Verdict::valid;
  for (Finding& finding : result_.findings) {
    // Where records can't be understood, they are mended; nobody can rule on what they may say.
    if (finding.rule != Finding::faulty_records) {
      finding.decision = ruling_on(decisions, screening_.rules().rules[finding.rule].full_name());
      if (finding.decision != nullptr && is_older(*finding.decision, finding)) finding.decision = nullptr;
    }
    if (!is_overruled(finding)) result_.standing = std::max(result_.standing, verdict_of(finding.judgement.outcome));
  }
}

// Nobody rules on what the laboratory had not yet said.
bool SampleJudge::is_older(const Decision& decision, const Finding& finding) const {
  if (finding.rule == Finding::faulty_records || screening_.rules().rules[finding.rule].of != Subject::result)
    return false;
  const Book& book = screening_.book();
  const ResultFigures& figures = result_.results[finding.about];
  Day said = book.results[figures.result].reported;
  for (const std::uint32_t blank : figures.blanks->results) said = std::max(said, book.results[blank].reported);
  return said != no_day && local_day(decision.decided, book.settings.zone) < said;
}

bool gave_the_verdict(const SampleResult& result, const Finding& finding) {
  return verdict_of(finding.judgement.outcome) == result.verdict;
}

bool is_settled(const SampleResult& result) {
  return std::all_of(result.findings.begin(), result.findings.end(), [&result](const Finding& finding) {
    return !gave_the_verdict(result, finding) || finding.decision != nullptr;
  });
}

void SampleJudge::judge_by(std::uint32_t number) {
  const Rule& rule = screening_.rules().rules[number];
  const SampleContext context = screening_.context(*result_.figures, result_.budget);
  if (rule.of == Subject::set || rule.of == Subject::reading) return judge_sets(number, context);
  if (rule.of == Subject::result) return judge_results(number, context);
  if (rule.of != Subject::sample) return;
  const Applies applies = applies_to_sample(rule, context, screening_.rules().samplers);
  if (applies == Applies::no) return;
  if (applies == Applies::unknown) return add(number, judge_missing(rule), no_row);
  add(number, driftwarden::judge(rule, sample_measure(context, static_cast<SampleMeasure>(rule.measure), rule.base)),
      no_row, known_to(rule, context));
}

void SampleJudge::judge_sets(std::uint32_t number, const SampleContext& context) {
  const Rule& rule = screening_.rules().rules[number];
  for (std::uint32_t s = 0; s < result_.figures->sets.size(); ++s) {
    const ReadingSet& set = result_.figures->sets[s];
    if (rule.of == Subject::reading) {
      judge_readings(number, context, set);
      continue;
    }
    const Applies applies = applies_to_set(rule, context, set);
    if (applies == Applies::no) continue;
    if (applies == Applies::unknown) {
      add(number, judge_missing(rule), s);
    } else {
      add(number, driftwarden::judge(rule, set_measure(context, set, static_cast<SetMeasure>(rule.measure), rule.base)),
          s, known_to(rule, context, &set));
    }
  }
}

void SampleJudge::judge_readings(std::uint32_t number, const SampleContext& context, const ReadingSet& set) {
  const Rule& rule = screening_.rules().rules[number];
  for (std::uint32_t i = set.rows.begin; i < set.rows.begin + set.rows.count; ++i) {
    const Row reading = result_.figures->rows[i];
    if (screening_.book().readings.flags[reading] != 0) continue;
    const Applies applies = applies_to_reading(rule, context, set, reading);
    if (applies == Applies::no) continue;
    if (applies == Applies::unknown) {
      add(number, judge_missing(rule), reading);
    } else {
      add(number,
          driftwarden::judge(rule, reading_measure(context, set, reading, static_cast<ReadingMeasure>(rule.measure))),
          reading, known_to(rule, context, &set, reading));
    }
  }
}

// Of blanks there is no rule: what they carry is told of the samples that they stand for.
void SampleJudge::judge_results(std::uint32_t number, const SampleContext& context) {
  const Rule& rule = screening_.rules().rules[number];
  if (context.figures.kind == SampleKind::blank) return;
  for (std::uint32_t i = 0; i < result_.results.size(); ++i) {
    const ResultContext of{screening_.book(), result_.results[i]};
    if (of.result().problem != no_problem || of.figures.blanks->problem != no_problem) continue;
    const Applies applies = applies_to_result(rule, context, of, screening_.rules().samplers);
    if (applies == Applies::no) continue;
    const auto measure = static_cast<ResultMeasure>(rule.measure);
    add(number, driftwarden::judge(rule, result_measure(of, measure)), i, result_known(of, measure));
  }
}

void SampleJudge::add(std::uint32_t number, Judgement judgement, std::uint32_t about, const KnownTo& known) {
  Finding finding{number, judgement, about};
  if (number != Finding::faulty_records) {
    weigh(finding, screening_.rules().rules[number], known, screening_.guard(), keeps_all_);
  }
  const Outcome outcome = finding.judgement.outcome;
  if (outcome == Outcome::met || outcome == Outcome::skipped) {
    if (finding.probability_beyond >= near_miss_probability) result_.near.push_back(finding);
    if (keeps_all_) result_.kept.push_back(finding);
    return;
  }
  result_.findings.push_back(finding);
  if (number != Finding::faulty_records && measure_of(screening_.rules().rules[number]).is_about_records)
    ++result_.records_lacking;
  result_.verdict = std::max(result_.verdict, verdict_of(outcome));
}

}  // namespace driftwarden

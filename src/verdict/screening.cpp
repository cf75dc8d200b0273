// SPDX-License-Identifier: MIT
#include "verdict/screening.hpp"

#include <algorithm>

#include "assessment/overlap.hpp"
#include "rule/english.hpp"
#include "verdict/applicability.hpp"
#include "verdict/decision_risk.hpp"

namespace driftwarden {
namespace {

bool asks_for_overlap(const RuleSet& rules) {
  return std::any_of(rules.rules.begin(), rules.rules.end(), [](const Rule& rule) {
    return rule.of == Subject::sample && rule.measure == static_cast<std::size_t>(SampleMeasure::overlap);
  });
}

}  // namespace

SamplerFacts sampler_facts(const Book& book, const RuleSet& rules) {
  SamplerFacts facts;
  facts.nominal_l_min.assign(book.texts.size(), missing);
  facts.cut_exponent.assign(book.texts.size(), missing);
  for (const auto& [name, sampler] : rules.samplers) {
    const TextId text = book.texts.find(name);
    if (text == TextPool::unknown) continue;
    facts.nominal_l_min[text] = sampler.nominal_l_min.value_or(missing);
    facts.cut_exponent[text] = sampler.cut_exponent.value_or(missing);
  }
  return facts;
}

Screening::Screening(const Book& book, const RuleSet& rules, SupposedErrors supposed, unsigned threads)
    : rules_(rules),
      basis_(book, practice_of(rules.practice), sampler_facts(book, rules), std::move(supposed), threads),
      guard_(book.settings.guard),
      texts_(&english),
      rulings_(book),
      words_(book, rules) {
  if (asks_for_overlap(rules)) overlap_min_ = minutes_shared(book.samples, book.instruments.size());
}

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
  if (result_.figures->problem != no_problem) {
    // What its records say can't be trusted: no rule is held to it.
    add(Finding::faulty_records, {Outcome::undecided, missing, missing, missing}, no_row);
  } else {
    for (std::uint32_t rule = 0; rule < screening_.rules().rules.size(); ++rule) judge_by(rule);
  }
  heed_decisions();
  return result_;
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
    }
    if (!is_overruled(finding)) result_.standing = std::max(result_.standing, verdict_of(finding.judgement.outcome));
  }
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

void Totals::count(Verdict verdict, Verdict standing) {
  ++samples;
  ++(verdict == Verdict::valid       ? valid
     : verdict == Verdict::qualified ? qualified
     : verdict == Verdict::undecided ? undecided
                                     : void_);
  if (standing >= Verdict::undecided) ++open;
  if (standing == verdict) return;
  ++(standing == Verdict::valid       ? valid_by_decision
     : standing == Verdict::qualified ? qualified_by_decision
                                      : undecided_by_decision);
}

Totals& Totals::operator+=(const Totals& other) {
  samples += other.samples;
  valid += other.valid;
  qualified += other.qualified;
  undecided += other.undecided;
  void_ += other.void_;
  valid_by_decision += other.valid_by_decision;
  qualified_by_decision += other.qualified_by_decision;
  undecided_by_decision += other.undecided_by_decision;
  open += other.open;
  return *this;
}

}  // namespace driftwarden

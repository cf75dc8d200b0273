// SPDX-License-Identifier: MIT
#include "history/rule_comparison.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

// One sample under one set of rules.
struct Judged {
  const Screening& screening;
  const SampleResult& result;

  const Rule& rule(const Finding& finding) const { return screening.rules().rules[finding.rule]; }
};

// What a rule is about: the measure, and of which set or reading it is.
using About = std::tuple<Subject, std::size_t, std::uint32_t>;

About about(const Judged& side, const Finding& finding) {
  const Rule& rule = side.rule(finding);
  return {rule.of, rule.measure, finding.about};
}

bool is_stricter(const Finding& a, const Finding& b) {
  const Verdict of_a = verdict_of(a.judgement.outcome);
  const Verdict of_b = verdict_of(b.judgement.outcome);
  if (of_a != of_b) return of_a > of_b;
  return a.judgement.margin < b.judgement.margin;
}

// The strictest word of a side on something; nullptr where it has none.
const Finding* strictest(const Judged& side, const About& what) {
  const Finding* found = nullptr;
  for (const auto* some : {&side.result.findings, &side.result.kept}) {
    for (const Finding& finding : *some) {
      if (finding.rule == Finding::faulty_records || about(side, finding) != what) continue;
      if (found == nullptr || is_stricter(finding, *found)) found = &finding;
    }
  }
  return found;
}

std::optional<HeldTo> held_to(const Judged& side, const Finding* finding) {
  if (finding == nullptr) return std::nullopt;
  const Rule& rule = side.rule(*finding);
  const Outcome outcome = finding->judgement.outcome;
  return HeldTo{rule.full_name(), outcome, reported(rule, finding->judgement), rule.limit.text,
                message_of(side.screening, side.result, *finding)};
}

Verdict verdict_on(const Finding* finding) {
  return finding == nullptr ? Verdict::valid : verdict_of(finding->judgement.outcome);
}

// Everything that costs the sample its validity on one side and something else on the other.
std::vector<Difference> differences(const Judged& before, const Judged& after) {
  std::vector<Difference> found;
  std::vector<About> seen;
  for (const Judged* side : {&before, &after}) {
    for (const Finding& finding : side->result.findings) {
      if (finding.rule == Finding::faulty_records || verdict_of(finding.judgement.outcome) == Verdict::valid) continue;
      const About what = about(*side, finding);
      if (std::find(seen.begin(), seen.end(), what) != seen.end()) continue;
      seen.push_back(what);
      const Finding* was = strictest(before, what);
      const Finding* would_be = strictest(after, what);
      if (verdict_on(was) == verdict_on(would_be)) continue;
      found.push_back(
          {measure_name(side->screening, side->result, finding), held_to(before, was), held_to(after, would_be)});
    }
  }
  return found;
}

}  // namespace

RuleComparison compare_rules(const Screening& before, const Screening& after, const std::vector<Row>& samples) {
  RuleComparison comparison;
  SampleJudge judge_before(before, true);
  SampleJudge judge_after(after, true);
  for (const Row sample : samples) {
    const Judged was{before, judge_before.judge(sample)};
    const Judged would_be{after, judge_after.judge(sample)};
    const Verdict from = was.result.verdict;
    const Verdict to = would_be.result.verdict;
    comparison.before.count(from);
    comparison.after.count(to);
    ++comparison.samples[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)];
    if (from != to) comparison.changed.push_back({sample, from, to, differences(was, would_be)});
  }
  return comparison;
}

}  // namespace driftwarden

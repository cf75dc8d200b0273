// SPDX-License-Identifier: MIT
#include "driftwarden/history/sample_action.hpp"

#include <algorithm>

#include "driftwarden/verdict/message.hpp"

namespace driftwarden {
namespace {

// Whether a finding is only that something isn't there.
bool is_of_a_gap(const Screening& screening, const Finding& finding) {
  const Rule& rule = screening.rules().rules[finding.rule];
  if (measure_of(rule).kind != MeasureKind::number) return false;
  const bool is_count =
      rule.of == Subject::sample && (measure_of(rule).name == "pre.count" || measure_of(rule).name == "post.count");
  return is_missing(finding.judgement.figure) || (is_count && finding.judgement.figure == 0);
}

std::string which_reading(const SampleAssessment& figures) {
  if (figures.pre < 0 && figures.post < 0) return "the readings before and after it";
  return figures.pre < 0 ? "the reading before it" : "the reading after it";
}

bool lacks_a_reading(const SampleAssessment& figures) {
  return figures.kind == SampleKind::sample && (figures.pre < 0 || figures.post < 0);
}

void say_what(ReviewAction& action, const SampleResult& result, bool is_all_gaps) {
  const bool is_void = result.verdict == Verdict::void_;
  if (result.verdict == Verdict::qualified) {
    action.kind = ActionKind::weigh;
    action.what = "It stands; pass the remark on with the result, or write down a decision about it.";
  } else if (is_void && !is_all_gaps) {
    action.kind = ActionKind::resample;
    action.what = "Leave its volume out of every result, and take the sample again.";
  } else if (lacks_a_reading(*result.figures)) {
    action.kind = ActionKind::find_reading;
    action.what = "Look for " + which_reading(*result.figures) +
                  " in the field notes and add it to the book; if there is none, take the sample again.";
  } else {
    action.kind = ActionKind::find_figure;
    action.what = std::string("Look in the field notes for what is missing and add it to the book; until then it is ") +
                  (is_void ? "void." : "undecided.");
  }
}

}  // namespace

std::optional<ReviewAction> action_about(const Screening& screening, const SampleResult& result) {
  if (result.verdict == Verdict::valid || result.figures->problem != no_problem) return std::nullopt;
  if (is_settled(result)) return std::nullopt;
  ReviewAction action;
  action.of = ActionSubject::sample;
  action.row = result.figures->sample;
  action.name = screening.book().samples.name[result.figures->sample];
  bool is_all_gaps = true;
  for (const Finding& finding : result.findings) {
    if (!gave_the_verdict(result, finding)) continue;
    is_all_gaps = is_all_gaps && is_of_a_gap(screening, finding);
    action.why.push_back({message_of(screening, result, finding), rule_name(screening, finding)});
  }
  say_what(action, result, is_all_gaps);
  return action;
}

}  // namespace driftwarden

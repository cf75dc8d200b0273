// SPDX-License-Identifier: MIT
#include "history/sample_action.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "verdict/measured.hpp"
#include "verdict/message.hpp"

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
  if (figures.pre < 0 && figures.post < 0) return "the readings before and after sampling";
  return figures.pre < 0 ? "the reading before sampling" : "the reading after sampling";
}

bool lacks_a_reading(const SampleAssessment& figures) {
  return figures.kind == SampleKind::sample && (figures.pre < 0 || figures.post < 0);
}

void say_what(ReviewAction& action, const SampleResult& result, bool is_all_gaps) {
  const bool is_void = result.verdict == Verdict::void_;
  if (result.verdict == Verdict::qualified) {
    action.kind = ActionKind::weigh;
    action.what = "Pass the reason on with every result, or write down a decision about it.";
  } else if (is_void && !is_all_gaps) {
    action.kind = ActionKind::resample;
    action.what = "Leave the volume out of every result, and take the sample again.";
  } else if (lacks_a_reading(*result.figures)) {
    action.kind = ActionKind::find_reading;
    action.what = "Look for " + which_reading(*result.figures) +
                  " in the field notes and add it to the book; if there is none, take the sample again.";
  } else {
    action.kind = ActionKind::find_figure;
    action.what =
        std::string("Look in the field notes for what is missing and add it to the book; until then the verdict is ") +
        (is_void ? "void." : "undecided.");
  }
}

bool is_of_papers(const Rule& rule) {
  return rule.of == Subject::sample && (rule.measure == static_cast<std::size_t>(SampleMeasure::calibrator_overdue) ||
                                        rule.measure == static_cast<std::size_t>(SampleMeasure::certificate_missing));
}

void add_calibrator(std::vector<LeansOnCalibrator>& all, const ReadingSet& set, const TimeZone& zone) {
  if (set.rows.calibrator == no_row) return;
  const LeansOnCalibrator leans{set.rows.calibrator, local_day(set.rows.first, zone)};
  if (std::none_of(all.begin(), all.end(), [&](const LeansOnCalibrator& known) {
        return known.calibrator == leans.calibrator && known.on == leans.on;
      }))
    all.push_back(leans);
}

// Where a sample's action comes from: its origin is its findings', as long as all of them have one.
class SampleOrigin {
 public:
  SampleOrigin(const Screening& screening, const SampleResult& result)
      : screening_(screening), figures_(*result.figures), context_(screening.context(figures_, result.budget)) {
    const SampleTable& samples = screening.book().samples;
    origin_.batch = screening.book().texts.text(field(samples.batch, figures_.sample, TextId{0}));
    origin_.is_of_flow = true;
  }

  void add(const Finding& finding) {
    const Rule* rule = finding.rule == Finding::faulty_records ? nullptr : &screening_.rules().rules[finding.rule];
    const bool is_of_flow = rule != nullptr && rule->of == Subject::sample && measure_of(*rule).has_base;
    const bool is_of_papers = rule != nullptr && driftwarden::is_of_papers(*rule);
    origin_.is_of_flow = origin_.is_of_flow && is_of_flow;
    is_all_papers_ = is_all_papers_ && is_of_papers;
    is_all_error_ = is_all_error_ && is_of_flow;
    std::vector<LeansOnCalibrator> read_with;
    for (const ReadingSet& set : figures_.sets) {
      if (is_of_papers && concerns(context_, static_cast<SampleMeasure>(rule->measure), set))
        add_to(origin_.state, set);
      if (is_of_flow && leans_on(measure_of(*rule).leans_on, set.rows.stage)) add_to(read_with, set);
    }
    if (is_of_flow) add_errors(read_with, measure_of(*rule).from_nominal);
  }

  ActionOrigin origin() {
    if (!is_all_papers_) origin_.state.clear();
    if (!is_all_error_) origin_.error.clear();
    return std::move(origin_);
  }

 private:
  // A calibrator's error is not in the ratio of flows that were all read with it.
  void add_errors(const std::vector<LeansOnCalibrator>& read_with, bool from_nominal) {
    const bool is_one = std::all_of(read_with.begin(), read_with.end(), [&](const LeansOnCalibrator& each) {
      return each.calibrator == read_with.front().calibrator;
    });
    if (is_one && !from_nominal) is_all_error_ = false;
    origin_.error.insert(origin_.error.end(), read_with.begin(), read_with.end());
  }
  static bool leans_on(const LeansOn& records, Stage stage) {
    return stage == Stage::pre ? records.pre : stage == Stage::post ? records.post : records.field;
  }
  void add_to(std::vector<LeansOnCalibrator>& all, const ReadingSet& set) {
    add_calibrator(all, set, screening_.book().settings.zone);
  }

  const Screening& screening_;
  const SampleAssessment& figures_;
  SampleContext context_;
  ActionOrigin origin_;
  bool is_all_papers_ = true;
  bool is_all_error_ = true;
};

}  // namespace

std::optional<ReviewAction> action_about(const Screening& screening, const SampleResult& result) {
  if (result.verdict == Verdict::valid || result.problem != no_problem) return std::nullopt;
  if (is_settled(result)) return std::nullopt;
  ReviewAction action;
  action.of = ActionSubject::sample;
  action.row = result.figures->sample;
  action.name = screening.book().samples.name[result.figures->sample];
  bool is_all_gaps = true;
  SampleOrigin origin(screening, result);
  for (const Finding& finding : result.findings) {
    if (!gave_the_verdict(result, finding)) continue;
    is_all_gaps = is_all_gaps && is_of_a_gap(screening, finding);
    origin.add(finding);
    action.why.push_back({message_of(screening, result, finding), rule_name(screening, finding)});
  }
  say_what(action, result, is_all_gaps);
  action.origin = origin.origin();
  return action;
}

}  // namespace driftwarden

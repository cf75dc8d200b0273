// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "verdict/decision_risk.hpp"
#include "verdict/finding.hpp"
#include "verdict/result_figures.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// From this probability on that the true value lies beyond a limit, a rule that is met is told as a near miss: the
// figure then lies within its expanded uncertainty of the limit.
inline constexpr double near_miss_probability = 0.025;

// One sample, judged.
struct SampleResult {
  const SampleAssessment* figures = nullptr;
  Verdict verdict = Verdict::valid;
  // What is left of the verdict where overruled findings don't count: how the sample stands by decision.
  Verdict standing = Verdict::valid;
  std::vector<Finding> findings;  // not met, or not decided
  std::vector<Finding> near;      // met, but the true value may well lie beyond the limit
  std::vector<Finding> kept;      // met, or passed over; only where asked for
  Budget budget;
  std::vector<ResultFigures> results;  // of the laboratory, in the book's order
  ProblemNumber problem = no_problem;  // of a record that the sample, or a result of it, leans on
  std::size_t records_lacking = 0;     // findings of rules about a record

  // U of the volume that is stated, L; missing where that is a convention, which has none.
  double volume_expanded_l() const {
    return figures->is_conventional ? missing : budget.about(BudgetFigure::volume).expanded;
  }
};

bool gave_the_verdict(const SampleResult& result, const Finding& finding);

// Whether a responsible person has ruled on everything that gave the sample its verdict.
bool is_settled(const SampleResult& result);

// Judges one sample after another, reusing its memory. One a thread; the same sample gives the same result in any.
class SampleJudge {
 public:
  explicit SampleJudge(const Screening& screening, bool keeps_all = false);

  // The result stays valid until the next call.
  const SampleResult& judge(Row sample);

 private:
  void work_out_results();
  void judge_by(std::uint32_t rule);
  void judge_sets(std::uint32_t rule, const SampleContext& context);
  void judge_readings(std::uint32_t rule, const SampleContext& context, const ReadingSet& set);
  void judge_results(std::uint32_t rule, const SampleContext& context);
  void add(std::uint32_t rule, Judgement judgement, std::uint32_t about, const KnownTo& known = {});
  void heed_decisions();
  bool is_older(const Decision& decision, const Finding& finding) const;

  const Screening& screening_;
  bool keeps_all_;
  SampleAssessor assessor_;
  SampleResult result_;
};

}  // namespace driftwarden

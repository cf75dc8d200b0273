// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "driftwarden/assessment/budget.hpp"
#include "driftwarden/assessment/sample_assessment.hpp"
#include "driftwarden/rule/rule_set.hpp"
#include "driftwarden/verdict/finding.hpp"
#include "driftwarden/verdict/measured.hpp"

namespace driftwarden {

// The practices of a rule set as assessing needs them.
AssessmentPractice practice_of(const RuleSet& rules);

// What the samplers that a book names are meant to do.
SamplerFacts sampler_facts(const Book& book, const RuleSet& rules);

// A book and what it is judged by, worked out once. Both have to outlive it. With supposed errors, every sample is
// judged as if calibrators had been that wrong.
class Screening {
 public:
  Screening(const Book& book, const RuleSet& rules, SupposedErrors supposed = {});

  const Book& book() const { return basis_.book; }
  const RuleSet& rules() const { return rules_; }
  const AssessmentBasis& basis() const { return basis_; }
  double overlap_min(Row sample) const { return field(overlap_min_, sample); }

 private:
  const RuleSet& rules_;
  AssessmentBasis basis_;
  Column<double> overlap_min_;
};

// From this probability on that the true value lies beyond a limit, a rule that is met is told as a near miss: the
// figure then lies within its expanded uncertainty of the limit.
inline constexpr double near_miss_probability = 0.025;

// One sample, judged.
struct SampleResult {
  const SampleAssessment* figures = nullptr;
  Verdict verdict = Verdict::valid;
  std::vector<Finding> findings;  // not met, or not decided
  std::vector<Finding> near;      // met, but the true value may well lie beyond the limit
  std::vector<Finding> kept;      // met, or passed over; only where asked for
  Budget budget;
  std::size_t records_lacking = 0;  // findings of rules about a record
};

// Judges one sample after another, reusing its memory. One a thread; the same sample gives the same result in any.
class SampleJudge {
 public:
  explicit SampleJudge(const Screening& screening, bool keeps_all = false);

  // For readers of verdicts and figures alone: no near misses, no probabilities, and of the budget only what a verdict
  // or the uncertainty of the volume needs. Verdicts, findings and that uncertainty are the same.
  void leave_out_risks();

  // The result stays valid until the next call.
  const SampleResult& judge(Row sample);

 private:
  bool needs_budget() const;
  void judge_by(std::uint32_t rule);
  void judge_sets(std::uint32_t rule, const SampleContext& context);
  void judge_readings(std::uint32_t rule, const SampleContext& context, const ReadingSet& set);
  void add(std::uint32_t rule, Judgement judgement, std::uint32_t about);

  const Screening& screening_;
  bool keeps_all_;
  bool tells_risks_ = true;
  bool asks_for_uncertainty_;  // some rule does
  SampleAssessor assessor_;
  SampleResult result_;
};

// How many samples came to which verdict.
struct Totals {
  std::size_t samples = 0;
  std::size_t valid = 0;
  std::size_t qualified = 0;
  std::size_t undecided = 0;
  std::size_t void_ = 0;

  void count(Verdict verdict);
  Totals& operator+=(const Totals& other);
};

}  // namespace driftwarden

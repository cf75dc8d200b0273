// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "assessment/budget.hpp"
#include "assessment/sample_assessment.hpp"
#include "rule/rule_set.hpp"
#include "verdict/decision_risk.hpp"
#include "verdict/finding.hpp"
#include "verdict/measured.hpp"
#include "verdict/rulings.hpp"

namespace driftwarden {

// What the samplers that a book names are meant to do.
SamplerFacts sampler_facts(const Book& book, const RuleSet& rules);

struct Texts;

// A book and what it is judged by, worked out once. Both have to outlive it. With supposed errors, every sample is
// judged as if calibrators had been that wrong.
class Screening {
 public:
  Screening(const Book& book, const RuleSet& rules, SupposedErrors supposed = {}, unsigned threads = 1);

  const Book& book() const { return basis_.book; }
  const RuleSet& rules() const { return rules_; }
  const AssessmentBasis& basis() const { return basis_; }
  // The multiple of the expanded uncertainty by which limits are narrowed: the book's, unless another is tried.
  double guard() const { return guard_; }
  void narrow_limits_by(double guard) { guard_ = guard; }
  // The language that findings are told in: English, unless another is set.
  const Texts& texts() const { return *texts_; }
  void tell_in(const Texts& texts) { texts_ = &texts; }
  const Rulings& rulings() const { return rulings_; }
  const UnknownWords& words() const { return words_; }
  // What rules may ask of a sample.
  SampleContext context(const SampleAssessment& figures, const Budget& budget) const {
    return {basis_, figures, overlap_min(figures.sample), &budget, &words_};
  }
  double overlap_min(Row sample) const { return field(overlap_min_, sample); }

 private:
  const RuleSet& rules_;
  AssessmentBasis basis_;
  double guard_;
  const Texts* texts_;
  Rulings rulings_;
  UnknownWords words_;
  Column<double> overlap_min_;
};

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
  std::size_t records_lacking = 0;  // findings of rules about a record

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
  void judge_by(std::uint32_t rule);
  void judge_sets(std::uint32_t rule, const SampleContext& context);
  void judge_readings(std::uint32_t rule, const SampleContext& context, const ReadingSet& set);
  void add(std::uint32_t rule, Judgement judgement, std::uint32_t about, const KnownTo& known = {});
  void heed_decisions();

  const Screening& screening_;
  bool keeps_all_;
  SampleAssessor assessor_;
  SampleResult result_;
};

// How many samples came to which verdict, and how many of them stand otherwise by decision.
struct Totals {
  std::size_t samples = 0;
  std::size_t valid = 0;
  std::size_t qualified = 0;
  std::size_t undecided = 0;
  std::size_t void_ = 0;
  std::size_t valid_by_decision = 0;
  std::size_t qualified_by_decision = 0;
  std::size_t undecided_by_decision = 0;
  std::size_t open = 0;  // void or undecided, and no decision says otherwise

  void count(Verdict verdict) { count(verdict, verdict); }
  void count(Verdict verdict, Verdict standing);
  Totals& operator+=(const Totals& other);
};

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/budget.hpp"
#include "assessment/laboratory_figures.hpp"
#include "assessment/sample_assessment.hpp"
#include "rule/rule_set.hpp"
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
  const ResultIndex& results() const { return results_; }
  // What rules may ask of a sample.
  SampleContext context(const SampleAssessment& figures, const Budget& budget) const {
    return {basis_, figures, overlap(figures.sample), &budget, &words_};
  }
  Overlap overlap(Row sample) const { return field(overlaps_, sample, Overlap{}); }

 private:
  const RuleSet& rules_;
  AssessmentBasis basis_;
  double guard_;
  const Texts* texts_;
  Rulings rulings_;
  UnknownWords words_;
  ResultIndex results_;
  Column<Overlap> overlaps_;
};

}  // namespace driftwarden

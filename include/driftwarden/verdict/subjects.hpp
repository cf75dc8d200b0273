// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "driftwarden/verdict/screening.hpp"

namespace driftwarden {

// What rules about calibrators, pumps and batches are judged from: one line a sample, in the book's order.
struct SampleFacts {
  Row sample = no_row;
  Verdict verdict = Verdict::valid;
  double drift = missing;
  double pre_l_min = missing;
  std::size_t records_lacking = 0;
};
SampleFacts facts_of(const SampleResult& result);

// A calibrator, pump or batch, judged. Its findings stand apart: they change no sample's verdict, for what is wrong
// with an instrument today need not have been when it was used.
struct SubjectResult {
  Subject of = Subject::batch;
  std::string name;
  Verdict verdict = Verdict::valid;
  std::vector<Finding> findings;  // not met, or not decided
};

// Whether any rule in force is about calibrators, pumps or batches.
bool judges_subjects(const RuleSet& rules);

// Every calibrator of the book, every pump and batch among the facts, in this order and each in the book's order; only
// those with findings.
std::vector<SubjectResult> judge_subjects(const Screening& screening, const std::vector<SampleFacts>& facts, Day as_of);

// One finding in words.
std::string message_of(const Screening& screening, const SubjectResult& result, const Finding& finding);

}  // namespace driftwarden

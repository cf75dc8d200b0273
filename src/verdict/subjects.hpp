// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verdict/sample_judge.hpp"

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

// A finding about a calibrator, pump or batch, and how much it rests on: "15 samples", "5 points". A figure that rests
// on one sample and one that rests on fifty read alike without it.
struct SubjectFinding : Finding {
  std::size_t n = 0;
  std::string rests_on;        // n with what is counted; "" where nothing is
  std::string name;            // of what it is about
  std::string_view word = {};  // of a measure that is a word, or yes and no
};

// A calibrator, pump or batch, judged. Its findings stand apart: they change no sample's verdict, for what is wrong
// with an instrument today need not have been when it was used.
struct SubjectResult {
  Subject of = Subject::batch;
  std::string name;
  Verdict verdict = Verdict::valid;
  std::vector<SubjectFinding> findings;  // not met, or not decided
};

// Whether any rule in force is about calibrators, pumps or batches.
bool judges_subjects(const RuleSet& rules);

// Every calibrator of the book, every pump and batch among the facts, in this order and each in the book's order; only
// those with findings. The facts are those of every sample that has come (see sample_days.hpp): what is chosen for
// printing must not change what is said of a pump.
std::vector<SubjectResult> judge_subjects(const Screening& screening, const std::vector<SampleFacts>& facts, Day as_of);

// Those to be printed with some samples: calibrators all, of pumps and batches the samples' own.
std::vector<SubjectResult> subjects_of(const Book& book, std::vector<SubjectResult> subjects,
                                       const std::vector<Row>& samples);

// One finding in words.
std::string message_of(const Screening& screening, const SubjectFinding& finding);

}  // namespace driftwarden

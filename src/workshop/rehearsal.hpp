// SPDX-License-Identifier: MIT
#pragma once

#include <memory>

#include "verdict/air_ahead.hpp"
#include "verdict/book_as_of.hpp"
#include "verdict/rules_ahead.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// A sample that is still to be taken, and what else its figures are worked out with beforehand.
struct RehearsalAsked {
  SampleAhead sample;  // its pump, calibrator and flow must be known
  double minutes = missing;
  AirAhead air;  // where its flow is read and it is taken
  unsigned threads = 1;
};

// The book as it would be with the sample taken: one reading before and one after, each at the flow that is meant, in
// the air that is expected. All of its figures come about as they will, by the same rooms; nothing is written into the
// book. A single reading tells nothing of its scatter: that of the calibrator's earlier sets stands for it.
class Rehearsal {
 public:
  // Faults: rehearsal/no-flow (what the calibrator should show can't be worked out), rehearsal/no-sample (the book
  // leaves the planned sample out), output/…, and those of a book.
  static Result<std::unique_ptr<Rehearsal>> of(const OpenedBook& opened, const RehearsalAsked& asked);

  const SampleResult& result() const { return *result_; }

 private:
  std::unique_ptr<OpenedBook> with_;
  std::unique_ptr<SampleJudge> judge_;
  const SampleResult* result_ = nullptr;
};

// When a sample that is planned for a day is taken to begin: at eight, in the book's zone.
Moment start_ahead(const Settings& settings, Day day);

}  // namespace driftwarden

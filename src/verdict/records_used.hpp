// SPDX-License-Identifier: MIT
#pragma once

#include <set>
#include <vector>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// The records that the results of some samples lean on, as rows of the book.
struct RecordsUsed {
  std::set<Row> instruments;
  std::set<Row> certificates;
  std::set<Row> samples;
  std::set<Row> readings;
  std::set<Row> decisions;
  std::set<Row> services;                // of the instruments
  std::set<Row> issues;                  // the same: who had them
  std::set<Row> results;                 // of the laboratory, with those of the blanks behind them
  std::set<Row> controls;                // filters weighed with them
  std::vector<Row> without_uncertainty;  // samples whose volume has no stated uncertainty

  // One sample more.
  void note(const Screening& screening, const SampleResult& result);
  // And the standards that the calibrators were compared with, as far as the book has them; decisions, services and
  // issues, too.
  void follow(const Screening& screening);
};

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "report/paint.hpp"
#include "verdict/sample_judge.hpp"
#include "verdict/subjects.hpp"
#include "verdict/totals.hpp"

namespace driftwarden {

// `screen` as a table of at most 80 columns for people: a stretch of lines for each batch, findings in words below the
// sample they are about. Widths are settled beforehand, so that the lines can be streamed.
class ScreenTable {
 public:
  ScreenTable(const Screening& screening, const std::vector<Row>& samples, Paint paint);

  std::string head() const;
  // `previous` is the row before in the table, or no_row: a batch's name stands above its first sample.
  void append(std::string& out, const SampleResult& result, Row previous) const;
  std::string tail(const Totals& totals, const std::vector<SubjectResult>& subjects) const;

 private:
  // As they are printed.
  std::string name_of(Row sample) const;
  std::string pump_of(Row sample) const;
  std::string batch_of(Row sample) const;
  void append_batch(std::string& out, Row sample, Row previous) const;
  void append_figures(std::string& out, const SampleResult& result) const;
  void append_why(std::string& out, const SampleResult& result) const;

  const Screening& screening_;
  Paint paint_;
  std::size_t sample_width_;
  std::size_t pump_width_;
};

}  // namespace driftwarden

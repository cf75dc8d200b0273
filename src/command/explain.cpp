// SPDX-License-Identifier: MIT
#include <ostream>

#include "command/opened_book.hpp"
#include "command/selection.hpp"
#include "report/explanation.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {

int run_explain(const ExplainOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<Row> row = sample_named(opened->book, options.sample, surroundings);
  if (!row) return cannot_be_used;
  SampleJudge judge(*opened->screening, true);
  const SampleResult& result = judge.judge(*row);
  surroundings.out << explanation_of(*opened->screening, result, Paint(surroundings.out_is_terminal),
                                     surroundings.out_is_terminal ? surroundings.columns : no_terminal);
  if (opened->has_faults()) return cannot_be_used;
  return result.standing >= Verdict::undecided ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden

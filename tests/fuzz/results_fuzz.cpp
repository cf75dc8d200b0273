// SPDX-License-Identifier: MIT
// Any bytes as results.csv: what a laboratory found. Nothing may crash, what is kept of a row can be used, and what is
// worked out of it is a figure or missing.
#include <cmath>
#include <cstdint>

#include "fuzz/sound_book.hpp"
#include "report/result_texts.hpp"
#include "report/result_working.hpp"
#include "report/terminal_text.hpp"
#include "support/book_text.hpp"

namespace driftwarden {
namespace {

void rows_can_be_used(const Book& book) {
  for (const LaboratoryResult& result : book.results) {
    require(result.sample < book.samples.size(), "a result is of a sample");
    require(result.place.file < book.files.results.size() && result.place.line > 1, "a row has a place");
    if (result.problem != no_problem) {
      require(result.problem <= book.problems.size(), "its problem is told");
      continue;
    }
    require(!result.analyte.empty(), "a row says of what");
    require(!is_missing(result.found) || result.is_less_than(), "and how much, or less than how much");
    require(result.is_weighed() || !(result.found < 0), "only a weight can be lost");
    require(!(result.limit < 0) && !(result.expanded < 0), "a limit is no less than nothing");
  }
}

void figures_can_be_printed(const Book& book) {
  RulesText rules{{{Subject::result, "blank.count", "at_least", {"2"}},
                   {Subject::result, "concentration", "at_most", {"1 mg/m3"}},
                   {Subject::result, "blank.above-limit", "is", {"no"}}}};
  rules.practice.push_back(practice("blank_correction", "mean"));
  const RuleSet set = rules.rule_set();
  const Screening screening(book, set);
  SampleJudge judge(screening, true);
  for (Row row = 0; row < book.samples.size(); ++row) {
    const SampleResult& result = judge.judge(row);
    for (const ResultFigures& figures : result.results) {
      require(!std::isinf(figures.concentration) && !std::isinf(figures.net), "a figure, or none");
      require(!(figures.of_concentration.expanded < 0), "U is no less than nothing");
    }
    require(result.results.empty() || !result_working(screening, result, no_terminal).empty(), "there is a working");
    std::string text;
    append_results_csv(text, screening, result);
  }
}

void results_can_be_used(const Book& book) {
  rows_can_be_used(book);
  figures_can_be_printed(book);
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return driftwarden::read_as("results.csv", data, size, driftwarden::results_can_be_used);
}

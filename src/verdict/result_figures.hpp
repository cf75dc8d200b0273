// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/laboratory_figures.hpp"
#include "rule/texts.hpp"
#include "verdict/measured.hpp"

namespace driftwarden {

// A result of a sample, as a rule asks about it.
struct ResultContext {
  const Book& book;
  const ResultFigures& figures;

  const LaboratoryResult& result() const { return book.results[figures.result]; }
};

// The value of a measure of a result, and how well it is known.
MeasureValue result_measure(const ResultContext& context, ResultMeasure measure);
KnownTo result_known(const ResultContext& context, ResultMeasure measure);
// Why it is missing.
std::string_view why_missing(const LackTexts& texts, const ResultContext& context, ResultMeasure measure);
// Whether blanks stand behind it, so that a finding of it cites their rows, too.
bool leans_on_blanks(ResultMeasure measure);
// The same of control filters.
bool leans_on_controls(ResultMeasure measure);

}  // namespace driftwarden

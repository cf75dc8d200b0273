// SPDX-License-Identifier: MIT
#include "report/printed_figures.hpp"

#include "quantity/number.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

// The drift with as many decimals as show on which side of its limits it lies.
std::string drift_text(const Screening& screening, const SampleResult& result) {
  const double percent = 100 * result.figures->drift;
  if (is_missing(percent)) return "";
  for (const Finding& finding : result.findings) {
    if (finding.rule == Finding::faulty_records) continue;
    const Rule& rule = screening.rules().rules[finding.rule];
    const bool is_of_drift =
        rule.of == Subject::sample && rule.measure == static_cast<std::size_t>(SampleMeasure::drift);
    if (!is_of_drift || rule.limit.is_absolute || is_missing(finding.judgement.limit)) continue;
    return with_decimals_beyond(percent, 1, 100 * finding.judgement.limit);
  }
  return with_decimals(percent, 1);
}

}  // namespace

SampleFigures figures_of(const Screening& screening, const SampleResult& result) {
  const SampleAssessment& f = *result.figures;
  return {with_decimals(f.minutes, 0),
          with_decimals(f.pre_l_min, 3),
          with_decimals(f.post_l_min, 3),
          drift_text(screening, result),
          with_significant_digits(f.volume_l, 4),
          with_significant_digits(result.volume_expanded_l(), 2),
          with_significant_digits(f.volume_reference_l, 4)};
}

std::string words_of(const Book& book, const Column<TextId>& column, Row sample) {
  return std::string(book.texts.text(field(column, sample, TextId{0})));
}

std::string conditions_text(const Conditions& conditions) {
  const std::string celsius = with_decimals(in_celsius(conditions.temperature), 2);
  return shortest(number_from(celsius).value_or(missing)) + " °C, " + with_decimals(conditions.pressure.value, 3) +
         " kPa";
}

}  // namespace driftwarden

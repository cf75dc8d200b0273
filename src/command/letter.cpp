// SPDX-License-Identifier: MIT
#include <ostream>

#include "book/stamp_text.hpp"
#include "command/output.hpp"
#include "command/selection.hpp"
#include "report/letter.hpp"

namespace driftwarden {

int run_letter(const LetterOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  ScreenOptions selection;
  if (!options.batch.empty()) selection.batches = {options.batch};
  if (!options.sample.empty()) selection.samples = {options.sample};
  const std::optional<Selection> selected = selected_samples(*opened, selection, surroundings);
  if (!selected || tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  const std::optional<std::string> format = format_meant(options.format, options.out, {"html", "pdf"}, surroundings);
  if (!format) return cannot_be_used;
  Letter letter = letter_of(*opened->screening, selected->samples);
  letter.about = options.batch.empty() ? "Sample " + options.sample : "Batch " + options.batch;
  letter.as_of = date_text(opened->as_of);
  letter.version = surroundings.version;
  letter.paper = paper_of(*format, options.paper);
  const Diagnostics failures = write_page(letter_page(letter), *format, options.out, opened->as_of);
  if (!failures.empty()) return refuse(failures, surroundings);
  surroundings.out << options.out << '\n';
  if (opened->has_faults()) return cannot_be_used;
  return letter.of(Verdict::void_).empty() && letter.of(Verdict::undecided).empty() ? all_is_well : something_is_amiss;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "command/field_batch.hpp"
#include "command/output.hpp"
#include "command/output_file.hpp"
#include "diagnostic/joined.hpp"
#include "report/field_sheet.hpp"

namespace driftwarden {
namespace {

// More tables than two leave no room on a side.
bool are_too_many(const std::vector<std::string>& calibrators, Surroundings& surroundings) {
  if (calibrators.size() <= 2) return false;
  tell(surroundings.err,
       {error("command/refused", {"command line", 0, 0}, "a side has room for what two calibrators should show",
              "name at most two with --calibrator, and print the sheets of others apart")});
  return true;
}

// "TF48A, TF48B"
std::string batches_of(const std::vector<SampleAhead>& samples) {
  std::vector<std::string> names;
  for (const SampleAhead& sample : samples) {
    if (std::ranges::find(names, sample.batch) == names.end()) names.push_back(sample.batch);
  }
  return joined(names, ", ");
}

}  // namespace

int run_sheet(const SheetOptions& options, Surroundings& surroundings) {
  const std::optional<SaidAir> said = said_air(options.air, surroundings);
  if (!said || are_too_many(options.calibrators, surroundings)) return cannot_be_used;
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<SamplesAhead> ahead = options.kit.empty() ? batch_ahead(*opened, options.batch, surroundings)
                                                                : kit_ahead(*opened, options.kit, surroundings);
  const std::optional<std::vector<Row>> calibrators =
      calibrators_named(opened->book, options.calibrators, surroundings);
  if (!ahead || !calibrators || tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  const std::optional<std::string> format = format_meant(options.format, options.out, {"html", "pdf"}, surroundings);
  if (!format) return cannot_be_used;
  const Screening& screening = *opened->screening;
  FieldSheets sheets = field_sheets(
      screening,
      {batches_of(ahead->samples), *ahead, air_expected(screening, *said, opened->as_of), *calibrators, opened->as_of});
  sheets.version = surroundings.version;
  sheets.paper = paper_of(*format, options.paper);
  const Diagnostics failures = write_page(field_sheets_page(sheets), *format, options.out, opened->as_of);
  if (!failures.empty()) return refuse(failures, surroundings);
  surroundings.out << options.out << '\n';
  return opened->has_faults() ? cannot_be_used : all_is_well;
}

}  // namespace driftwarden

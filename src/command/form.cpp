// SPDX-License-Identifier: MIT
#include <ostream>

#include "command/field_batch.hpp"
#include "command/output.hpp"
#include "report/field_form.hpp"

namespace driftwarden {

int run_form(const FormOptions& options, Surroundings& surroundings) {
  const std::optional<SaidAir> said = said_air(options.air, surroundings);
  if (!said) return cannot_be_used;
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<SamplesAhead> ahead = batch_ahead(*opened, options.batch, surroundings);
  std::optional<std::vector<Row>> calibrators = calibrators_named(opened->book, options.calibrators, surroundings);
  if (!ahead || !calibrators || tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  if (!format_meant("", options.out, {"html"}, surroundings)) return cannot_be_used;
  const Screening& screening = *opened->screening;
  if (calibrators->empty()) calibrators = calibrators_in_use(screening, opened->as_of);
  const FormAsked asked{options.batch, *ahead, air_expected(screening, *said, opened->as_of).air, *calibrators,
                        opened->as_of};
  const Diagnostics failures =
      write_page(field_form(screening, asked, surroundings.version), "html", options.out, opened->as_of);
  if (!failures.empty()) return refuse(failures, surroundings);
  surroundings.out << options.out << '\n';
  return opened->has_faults() ? cannot_be_used : all_is_well;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include <ostream>

#include "book/stamp_text.hpp"
#include "command/opened_book.hpp"
#include "command/output.hpp"
#include "command/selection.hpp"
#include "report/custody_json.hpp"
#include "report/custody_sheet.hpp"
#include "report/printed_figures.hpp"

namespace driftwarden {
namespace {

std::string text_as(const std::string& format, const CustodySheet& sheet) {
  if (format == "csv") return custody_csv(sheet);
  if (format == "json") return custody_json(sheet);
  if (format == "html" || format == "pdf") return custody_page(sheet);
  return custody_table(sheet);
}

CustodySheet sheet_of(const OpenedBook& opened, const std::string& batch, const std::vector<Row>& samples,
                      const Surroundings& surroundings) {
  const Settings& settings = opened.book.settings;
  CustodySheet sheet;
  sheet.title = settings.title;
  sheet.batch = batch;
  sheet.zone = settings.zone_name;
  sheet.reference = conditions_text(settings.reference);
  sheet.as_of = date_text(opened.as_of);
  sheet.version = surroundings.version;
  sheet.consignment = consignment_of(settings, batch);
  SampleJudge judge(*opened.screening);
  for (const Row sample : samples) sheet.add(custody_line(*opened.screening, judge.judge(sample)));
  return sheet;
}

}  // namespace

int run_custody(const CustodyOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  ScreenOptions selection;
  selection.batches = {options.batch};
  const std::optional<Selection> selected = selected_samples(*opened, selection, surroundings);
  if (!selected || tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  const std::optional<std::string> format =
      format_meant(options.format, options.out, {"table", "csv", "json", "html", "pdf"}, surroundings);
  if (!format) return cannot_be_used;
  CustodySheet sheet = sheet_of(*opened, options.batch, selected->samples, surroundings);
  sheet.paper = paper_of(*format, options.paper);
  if (!write_result({text_as(*format, sheet), *format, options.out, opened->as_of}, surroundings))
    return cannot_be_used;
  if (opened->has_faults()) return cannot_be_used;
  return sheet.voids.empty() && sheet.undecided() == 0 ? all_is_well : something_is_amiss;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/book_table.hpp"

#include <algorithm>
#include <array>

#include "book/table_files.hpp"
#include "diagnostic/joined.hpp"

namespace driftwarden {
namespace {

template <auto records>
std::size_t size_of(const Book& book) {
  return (book.*records).size();
}

std::size_t rows_of_results(const Book& book) { return book.results.size() + book.controls.size(); }

constexpr std::array<BookTable, 14> tables{{
    {&instruments_spec, &BookFiles::instruments, true, false, false, read_instruments, size_of<&Book::instruments>,
     "instrument", "instruments"},
    {&certificates_spec, &BookFiles::certificates, false, true, false, read_certificates, size_of<&Book::certificates>,
     "certificate", "certificates"},
    {&received_spec, &BookFiles::received, false, false, false, read_received, size_of<&Book::receipts>, "receipt",
     "receipts", true},
    {&samples_spec, &BookFiles::samples, true, false, false, read_samples, size_of<&Book::samples>, "sample",
     "samples and blanks"},
    {&readings_spec, &BookFiles::readings, true, false, false, read_readings, size_of<&Book::readings>, "reading",
     "readings"},
    {&decisions_spec, &BookFiles::decisions, false, false, false, read_decisions, size_of<&Book::decisions>, "decision",
     "decisions"},
    {&actions_spec, &BookFiles::actions, false, false, false, read_actions, size_of<&Book::assignments>, "action",
     "actions"},
    {&service_spec, &BookFiles::service, false, false, false, read_service, size_of<&Book::services>, "service",
     "services"},
    {&checks_spec, &BookFiles::checks, false, false, false, read_checks, size_of<&Book::checks>, "check", "checks"},
    {&plan_spec, &BookFiles::plan, false, false, false, read_plan, size_of<&Book::plan>, "planned sample",
     "planned samples", true},
    {&kits_spec, &BookFiles::kits, false, false, false, read_kits, size_of<&Book::kit_items>, "kit item", "kit items",
     true},
    {&issues_spec, &BookFiles::issues, false, false, false, read_issues, size_of<&Book::issues>, "issue", "issues",
     true},
    {&results_spec, &BookFiles::results, false, false, false, read_results, rows_of_results, "result", "results", true},
    {&pooled_spec, &BookFiles::pooled, false, false, true, read_pooled, size_of<&Book::handed_scatter>,
     "pooled scatter", "pooled scatters", true},
}};

}  // namespace

std::span<const BookTable> book_tables() { return tables; }

std::string heading_line(const TableSpec& spec) { return joined(spec.fields, ",", heading_of) + '\n'; }

std::vector<std::string> files_of(const Book& book) {
  std::vector<std::string> names{"book.toml"};
  for (const BookTable& table : tables) {
    for (const std::string& source : book.files.*table.files) {
      const std::string file(split_sheet(source).file);
      if (std::find(names.begin(), names.end(), file) == names.end()) names.push_back(file);
    }
  }
  return names;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/rows_received.hpp"

#include <algorithm>
#include <optional>
#include <sstream>

#include "book/csv_scanner.hpp"
#include "book/table_files.hpp"
#include "book/timestamp.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/suggestion.hpp"
#include "system/digest.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

// The column of the form; npos: none.
std::size_t form_column_in(const TableLayout& layout) {
  for (const auto& [column, heading] : layout.notes) {
    if (heading_key(heading) == heading_key(form_column)) return static_cast<std::size_t>(column);
  }
  return std::string::npos;
}

void append_quoted(std::string& row, std::string_view text) {
  if (text.find_first_of("\",\r\n;\t") == std::string_view::npos) {
    row += text;
  } else {
    append_in_csv_quotes(row, text);
  }
}

// Copies rows without the column of the form.
class RowCopier {
 public:
  RowCopier(const std::string& file, std::size_t form_at) : file_(file), form_at_(form_at) {}

  // Nothing, or what is wrong with the row.
  std::optional<Diagnostic> copy(const CsvScanner& row, std::uint32_t line, bool is_heading) {
    if (row.fault() != CsvFault::none) return csv_fault(row, file_, line);
    bool is_first = true;
    for (std::size_t column = 0; column < row.cell_count(); ++column) {
      const std::string_view cell = row.cells()[column].text;
      if (column == form_at_) {
        if (!is_heading && !note_form(cell)) return forms_differ(line);
        continue;
      }
      if (!is_first) out.text += ',';
      append_quoted(out.text, cell);
      is_first = false;
    }
    out.text += '\n';
    if (!is_heading) ++out.rows;
    return std::nullopt;
  }

  RowsReceived out;

 private:
  bool note_form(std::string_view cell) {
    if (out.rows == 0) out.form = cell;
    return out.form == cell;
  }
  Diagnostic forms_differ(std::uint32_t line) const {
    return error("receive/forms", {file_, line, 0},
                 "rows of the file are of different forms, " + in_quotes(out.form) + " and others",
                 "receive the rows of each form from a file of their own");
  }

  const std::string& file_;
  std::size_t form_at_;
};

}  // namespace

bool is_received_name(std::string_view file) {
  constexpr std::string_view pattern = "received-0000-00-00-xxxxxxxxxxxx.csv";
  return file.size() == pattern.size() && std::equal(file.begin(), file.end(), pattern.begin(), [](char c, char meant) {
           const bool is_digit = c >= '0' && c <= '9';
           if (meant == '0') return is_digit;
           return meant == 'x' ? is_digit || (c >= 'a' && c <= 'f') : c == meant;
         });
}

std::set<std::string> names_being_received(const std::filesystem::path& book) {
  std::set<std::string> names;
  const std::string note(receiving_note);
  if (const Result<HeldFile> held = HeldFile::open(book / note, note)) {
    std::istringstream lines{std::string(held->bytes())};
    for (std::string name; std::getline(lines, name);) names.insert(name);
  }
  return names;
}

std::string RowsReceived::name_on(Day day) const {
  constexpr std::size_t digits = 12;
  return std::string(spec->table) + "/received-" + date_text(day) + "-" + sha256_of(text).substr(0, digits) + ".csv";
}

Result<RowsReceived> rows_received(const std::filesystem::path& path, const Settings& settings) {
  const std::string file = path.string();
  const Result<HeldFile> held = HeldFile::open(path, file);
  if (!held) return held.faults();
  const TableSpec* spec = nullptr;
  std::optional<TableLayout> layout;
  Diagnostics why;
  for (const TableSpec* each : {&readings_spec, &samples_spec}) {
    Diagnostics problems;
    layout = read_layout({held->bytes(), file}, *each, owners_headings(settings, each->table), problems);
    spec = each;
    const bool is_of_it =
        layout && (each == &readings_spec || layout->has(static_cast<int>(field_named(*each, "started")->number)));
    if (is_of_it) break;
    layout.reset();
    if (why.empty()) why = std::move(problems);
  }
  if (!layout) {
    return error("receive/unknown-table", {file, 1, 0},
                 "these are neither samples nor readings: " + (why.empty() ? "" : why.front().message),
                 "samples need the columns sample and started, readings taken, stage, calibrator and reading with its "
                 "unit");
  }
  RowCopier copier(file, form_column_in(*layout));
  const std::string_view bytes = held->bytes();
  const std::size_t heading_at = bytes.substr(0, layout->rows_begin - 1).rfind('\n') + 1;
  CsvScanner headings(bytes.substr(heading_at == 0 && bytes.starts_with(byte_order_mark) ? 3 : heading_at),
                      layout->separator);
  headings.next();
  if (auto fault = copier.copy(headings, layout->first_line - 1, true)) return *std::move(fault);
  CsvScanner scanner(bytes.substr(layout->rows_begin), layout->separator);
  std::uint32_t line = layout->first_line;
  while (scanner.next()) {
    if (!scanner.is_blank()) {
      if (auto fault = copier.copy(scanner, line, false)) return *std::move(fault);
    }
    line += 1 + scanner.extra_lines();
  }
  if (copier.out.rows == 0)
    return error("receive/empty", {file, 1, 0}, "the file has headings and no rows", "save the form again");
  copier.out.spec = spec;
  copier.out.sha256 = sha256_of(bytes);
  return std::move(copier.out);
}

}  // namespace driftwarden

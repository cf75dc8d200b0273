// SPDX-License-Identifier: MIT
#include "book/reread_file.hpp"

#include <algorithm>

#include "book/book_table.hpp"
#include "book/plain_text.hpp"
#include "book/sheet_cell.hpp"
#include "book/sheet_text.hpp"
#include "book/table_files.hpp"
#include "diagnostic/characters.hpp"

namespace driftwarden {
namespace {

const TableSpec* table_of(const Book& book, const std::string& name) {
  for (const BookTable& table : book_tables()) {
    const std::vector<std::string>& files = book.files.*table.files;
    if (std::find(files.begin(), files.end(), name) != files.end()) return table.spec;
  }
  return nullptr;
}

// The text of a file or sheet and the sheet's first row, 0 of a file.
struct Reread {
  std::string text;
  std::uint32_t first_row = 0;
};

std::optional<Reread> text_of(const Book& book, const std::string& name, const FileManner& manner) {
  const auto [file, sheet] = split_sheet(name);
  const Result<HeldFile> bytes = read_again(book, std::string(file));
  if (!bytes) return std::nullopt;
  if (sheet.empty()) return Reread{std::string(bytes->bytes()), 0};
  const auto workbook = open_workbook(bytes->bytes(), name);
  if (!workbook) return std::nullopt;
  for (const Sheet& one : (*workbook)->sheets()) {
    if (one.name != sheet) continue;
    const SheetForm form{name, manner.decimal, [](std::string_view, std::uint32_t) { return std::vector<bool>(); }};
    Result<SheetText> made = sheet_text(**workbook, one, form);
    if (made && made->first_row > 0) return Reread{std::move(made->text), made->first_row};
  }
  return std::nullopt;
}

std::vector<std::size_t> begins_of_lines(std::string_view text) {
  std::vector<std::size_t> begins{0, 0};
  for (std::size_t at = text.find('\n'); at != std::string_view::npos; at = text.find('\n', at + 1))
    begins.push_back(at + 1);
  return begins;
}

}  // namespace

RereadFile reread_text(std::string name, std::string_view text, TableLayout layout, FileManner manner) {
  PiecedFile bytes = PiecedFile::of_text(text);
  layout.ignored = manner.ignored;
  std::vector<std::size_t> begins = begins_of_lines(bytes.bytes());
  return {std::move(name), std::move(bytes), std::move(layout), std::move(manner), std::move(begins)};
}

std::optional<RereadFile> reread(const Book& book, const std::string& name) {
  const TableSpec* spec = table_of(book, name);
  if (spec == nullptr) return std::nullopt;
  FileManner manner = manner_of(book.settings, name);
  const std::optional<Reread> text = text_of(book, name, manner);
  if (!text) return std::nullopt;
  PiecedFile bytes = PiecedFile::of_text(text->text);
  Diagnostics told_before;
  std::optional<TableLayout> layout = read_layout({bytes.bytes(), name, text->first_row, manner.heading_line}, *spec,
                                                  owners_headings(book.settings, spec->table), told_before);
  if (!layout) return std::nullopt;
  return reread_text(name, text->text, *std::move(layout), std::move(manner));
}

void RereadFile::for_each_row(const std::function<void(const CsvScanner& row, std::uint32_t line)>& look) const {
  read_rows_in_order(*this, [&look](const CsvScanner& row, Row, std::uint32_t line) { look(row, line); });
}

int RereadFile::column_at(const Place& place) const {
  if (place.column == 0) return -1;
  if (layout.is_of_sheet) return static_cast<int>(place.column) - 1;
  if (place.line >= line_begins.size()) return -1;
  const std::string_view rest = bytes.bytes().substr(line_begins[place.line]);
  CsvScanner row(rest, layout.separator);
  if (!row.next()) return -1;
  for (std::size_t c = row.cell_count(); c-- > 0;) {
    if (place_in_row(row, row.raw(c), name, 1).column <= place.column) return static_cast<int>(c);
  }
  return -1;
}

std::string RereadFile::heading(int column) const {
  for (std::size_t line = 0, at = 0; at < layout.rows_begin; ++line) {
    CsvScanner row(bytes.bytes().substr(at), layout.separator);
    if (!row.next()) break;
    at = static_cast<std::size_t>(row.position() - bytes.bytes().data());
    const auto cell = static_cast<std::size_t>(column);
    if (at >= layout.rows_begin && cell < row.cell_count()) return std::string(trimmed(row.text(cell)));
  }
  return "column " + std::to_string(column + 1);
}

}  // namespace driftwarden

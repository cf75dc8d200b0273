// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "book/reread_file.hpp"
#include "book/settings.hpp"
#include "book/table_layout.hpp"
#include "diagnostic/result.hpp"

namespace driftwarden {

// The column in which rows name the form that they were typed into; it is not written into the book.
inline constexpr std::string_view form_column = "form";

// Whether a file is called as those are into which rows were received: "received-2026-11-30-4f2a9c1b7e55.csv".
bool is_received_name(std::string_view file);

// Names, a line each, the files that a run of receive is about to write, or was when it was ended: no receipt of theirs
// was lost.
inline constexpr std::string_view receiving_note = ".driftwarden-receiving";
std::set<std::string> names_being_received(const std::filesystem::path& book);

// "readings/received-2026-11-30-4f2a9c1b7e55.csv"
std::string received_name(const TableSpec& spec, Day day, std::string_view digits);
// "readings/received-*.csv": all files into which rows of a table are received, as book.toml may name them.
std::string received_pattern(const TableSpec& spec);

// Whether rows that stand in a file of such a name are not those that were received into it. Of readings, void and
// note may differ: they may be struck out where they stand. 64 bytes after the text must be readable.
bool is_altered(std::string_view name, std::string_view text, const TableSpec& spec, const TableLayout& layout);

// Rows that came in a file from elsewhere, by the book's own headings: samples or readings.
class RowsReceived {
 public:
  const TableSpec* spec = nullptr;
  std::string came_as;  // the file, as it was named
  std::string form;     // "" where the rows name none
  std::string sha256;   // of the file as it came

  std::size_t rows() const { return lines_.size() - 1; }
  // As it is to be written into the book: the same rows, without the column of the form.
  std::string text() const;
  // "readings/received-2026-11-30-4f2a9c1b7e55.csv": by what is in it, so that the same rows have one name.
  std::string name_on(Day day) const;
  // The same with some of the rows left out, by their number from 0.
  RowsReceived without(const std::set<std::size_t>& left_out) const;

  // The lines of the text on which rows begin, but for some.
  std::vector<std::uint32_t> lines_but(const std::set<std::uint32_t>& those) const;
  // The number of the row that stands on a line of the text.
  std::size_t row_on(std::uint32_t line) const;
  // Where in the file as it came stands what stands at a place of the text: the line, and the cell.
  Place as_it_came(const Place& of_text) const;
  // The same for a column of the table in the row on a line of the text; the row alone, where the file lacks it.
  Place cell(std::uint32_t line, std::string_view field) const;
  // The file as it came, read in the manner of the file in the book that its rows go into.
  RereadFile as_it_came_in(const std::string& file, const Settings& settings) const;

 private:
  struct Line {
    std::string text;     // as it is to be written, with its end
    std::string lasting;  // what of it may not be altered in the book
    std::size_t came_at = 0;
    std::uint32_t came_on = 0;
  };
  std::optional<Diagnostic> add(const CsvScanner& row, std::string lasting, std::size_t at, std::uint32_t line);
  std::size_t line_on(std::uint32_t line) const;
  Place place_in(const Line& line, std::size_t column_as_it_came) const;

  std::string came_;  // with padding behind it
  TableLayout layout_;
  std::size_t form_at_ = std::string::npos;
  std::vector<Line> lines_;  // the heading line first

  friend Result<RowsReceived> rows_received(const std::filesystem::path& path, const Settings& settings);
};

// Reads a CSV file of rows. Cells and headings are understood later, with the book; here it is only seen which table
// they are of. Faults: file/unreadable, csv/…, receive/workbook, receive/unknown-table (of neither table),
// receive/empty, receive/forms (rows of different forms).
Result<RowsReceived> rows_received(const std::filesystem::path& path, const Settings& settings);

}  // namespace driftwarden

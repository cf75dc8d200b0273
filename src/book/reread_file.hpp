// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "book/book.hpp"
#include "book/file_manner.hpp"
#include "book/pieced_file.hpp"
#include "book/table_layout.hpp"

namespace driftwarden {

// A file of a book, or the sheet of a workbook, read once more to look at what stands in it.
struct RereadFile {
  std::string name;
  PiecedFile bytes;
  TableLayout layout;
  FileManner manner;
  std::vector<std::size_t> line_begins;  // of a CSV file, by line from 1; [0] is not used

  void for_each_row(const std::function<void(const CsvScanner& row, std::uint32_t line)>& look) const;
  // The column, from 0, in which a place lies; -1: in none.
  int column_at(const Place& place) const;
  std::string heading(int column) const;  // as it is written
};

// A text that is read as a file of this layout and manner.
RereadFile reread_text(std::string name, std::string_view text, TableLayout layout, FileManner manner);

// Nothing, where the name is no table's file or the file is not as it was. The book's settings must stay.
std::optional<RereadFile> reread(const Book& book, const std::string& name);

}  // namespace driftwarden

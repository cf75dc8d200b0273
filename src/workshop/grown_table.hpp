// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/book.hpp"
#include "book/table_layout.hpp"

namespace driftwarden {

// Rows to be added to a table of the book that only ever grows.
struct NewRows {
  const TableSpec& spec;
  const std::vector<std::string>& sources;      // where the book has this table, of BookFiles
  std::vector<std::vector<std::string>> cells;  // a row each, in the order of the specification; at least one row
};

// table/in-workbook: the table is kept in a workbook, to which nothing is added.
std::optional<Diagnostic> kept_in_workbook(const NewRows& rows);

// Appends the rows to the table's file, decisions.csv say, which is made where there is none, and gives back their
// places. What stands in the file keeps its bytes, and its own columns, separator and line ends are followed; a cell
// that has no column there is lost, and so is only left out where it is empty. Several programs may do so at once: each
// waits for the others (a lock on the file), writes all its rows in one go behind the last one, and has them on the
// disk before it returns. A last line without an end gets one. Where it fails, the file is as it was, or not there if
// it wasn't. `waits` is called before waiting for others.
// Faults: those of a heading line or an open quote in the file; table/no-column, table/unwritable, table/in-workbook.
Result<std::vector<Place>> append_rows(const Book& book, const NewRows& rows, const std::function<void()>& waits = {});

// A row as it is written, by the file's columns; cells are in quotes where they need them.
std::string row_text(const TableLayout& layout, const std::vector<std::string>& cells, std::string_view line_end);

}  // namespace driftwarden

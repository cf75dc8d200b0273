// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "book/timestamp.hpp"
#include "book/workbook.hpp"

namespace driftwarden {

// How the cells of a column are written out.
struct CellManner {
  char decimal = '.';
  bool in_percent = false;  // the heading's unit is %: a cell shown as 5 % is 5, and not 0.05
};

// Appends a cell as the text that a CSV file would have for it. A number is the shortest one that reads back to it,
// with noughts before it where the cell shows them; a date or time is ISO 8601, to the nearest second; a truth is "yes"
// or "no"; a cell that can't be read is a mark (cell_fault). Returns by how many milliseconds a time was moved.
double append_cell(std::string& out, const SheetCell& cell, const CellManner& manner);

// Control characters that no XML file can hold: they stand in the texts that are made of sheets only.
inline constexpr char sheet_separator = '\x1F';
inline constexpr char fault_mark = '\x01';

// What is wrong with a cell whose text begins with the mark.
StampFault cell_fault(std::string_view text);
// What the cell shows: "#N/A".
std::string_view shown_by_fault(std::string_view text);

}  // namespace driftwarden

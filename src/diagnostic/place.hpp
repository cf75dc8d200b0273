// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

namespace driftwarden {

// Where something was written: file (as named from the book's folder), line and column, both counted from 1.
// 0 means "the whole file" (line) or "the whole line" (column). Columns count characters, not bytes. A sheet of a
// workbook is named behind its file, "readings/W46.xlsx:week 46"; line and column are then its row and column.
struct Place {
  std::string file;
  std::uint32_t line = 0;
  std::uint32_t column = 0;

  friend auto operator<=>(const Place&, const Place&) = default;
};

// "readings.csv:17:4", "readings.csv:17" or "readings.csv"; "readings/W46.xlsx:week 46!D17", "readings/W46.xlsx:week
// 46!17".
std::string to_text(const Place& place);

// What a name of a sheet names: behind the ending of a workbook's file a colon, and the sheet; "" for any other file.
struct SheetOfFile {
  std::string_view file;
  std::string_view sheet;
};
SheetOfFile split_sheet(std::string_view name);

// A place in a workbook without its file: "week 46!D17"; "" for any other.
std::string place_in_workbook(const Place& place);

// Whether a name ends in that of a workbook, .xlsx or .ods.
bool is_workbook_name(std::string_view name);
// Whether it ends in .xml, as digital calibration certificates do.
bool is_document_name(std::string_view name);

std::string column_letters(std::uint32_t column);                // from 0: "C" for 2
std::string cell_name(std::uint32_t column, std::uint32_t row);  // from 1: "C12"

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "book/workbook.hpp"
#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// A sheet as the text that the readers of CSV rows take: cells between sheet_separator, each row as many as the widest.
// A row's line is its number in the sheet, counted on from that of the first with anything in it; rows without are
// blank lines; line ends within a cell don't count.
struct SheetText {
  std::string text;
  std::uint32_t first_row = 0;  // with anything in it; 0: nothing stands in the sheet
  Diagnostics remarks;          // on what is hidden, merged, or was rounded
};

struct SheetForm {
  std::string name;  // of the sheet, for places: "readings/W46.xlsx:week 46"
  char decimal = '.';
  // By column, whether the heading's unit is %; nothing of a row that is not the headings'.
  std::function<std::vector<bool>(std::string_view row, std::uint32_t number)> percent_columns;
};

// Faults: those of Workbook::read, and workbook/too-large.
Result<SheetText> sheet_text(const Workbook& workbook, const Sheet& sheet, const SheetForm& form);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "book/number_look.hpp"
#include "book/zipped_file.hpp"

namespace driftwarden {

// A cell as a workbook keeps it: by its type, not by its look.
struct SheetCell {
  enum class Kind : std::uint8_t {
    text,
    number,         // in `number`; a date or time, if its look says so, in days
    boolean,        // 0 or 1 in `number`
    moment,         // an ISO date or date-time in `text`
    duration,       // days in `number`
    error,          // "#N/A" in `text`
    not_worked_out  // a formula whose result nobody stored
  };
  std::uint32_t column = 0;  // from 0
  Kind kind = Kind::text;
  double number = 0;
  NumberLook look;
  std::string text;
};

// What spreadsheets hold at most: rows and columns (ECMA-376 sets none; these are those of the usual programs).
inline constexpr std::uint32_t most_sheet_rows = 1048576;
inline constexpr std::uint32_t most_sheet_columns = 16384;

// Is told the rows of a sheet, in order.
class SheetRows {
 public:
  virtual ~SheetRows() = default;
  // A row with something in it, its number from 1, its cells in order. False: no more is wanted.
  virtual bool row(std::uint32_t number, std::span<const SheetCell> cells, bool is_hidden) = 0;
  virtual void hidden_columns(std::uint32_t first, std::uint32_t last) = 0;  // from 0
  virtual void merged(std::string_view range) = 0;                           // "A2:A4"
};

struct Sheet {
  std::string name;
  bool is_hidden = false;
  std::string part;  // where it lies in the file
};

// A workbook of whichever format.
class Workbook {
 public:
  virtual ~Workbook() = default;
  virtual const std::vector<Sheet>& sheets() const = 0;
  virtual std::optional<Diagnostic> read(const Sheet& sheet, SheetRows& rows) const = 0;
};

// The workbook in some bytes, which must stay. By what is in it, not by its name, it is .xlsx (ECMA-376) or .ods
// (ISO/IEC 26300). Faults, at `name`: those of ZippedFile, and workbook/unreadable.
Result<std::unique_ptr<Workbook>> open_workbook(std::string_view bytes, const std::string& name);

Result<std::unique_ptr<Workbook>> open_xlsx(ZippedFile file);
Result<std::unique_ptr<Workbook>> open_ods(ZippedFile file);

}  // namespace driftwarden

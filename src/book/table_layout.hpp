// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/csv_scanner.hpp"
#include "book/ignored_rows.hpp"
#include "diagnostic/diagnostic.hpp"
#include "quantity/units.hpp"

namespace driftwarden {

enum class CellType : std::uint8_t { text, word, quantity, number, moment, date };

// What a table's column holds. A quantity's heading must carry its unit.
struct FieldSpec {
  int number = 0;  // its place in the table, and in the enumeration by which it is read
  std::string_view name;
  CellType type = CellType::text;
  Dimension dimension = Dimension::count;
  bool is_required = false;
  double least = -std::numeric_limits<double>::infinity();  // plausible figures, in the inside unit
  double most = std::numeric_limits<double>::infinity();
  std::span<const Dimension> or_dimensions = {};  // others it may be written in
  std::string_view usual_unit = {};               // where it is not the one customary for the dimension
  bool is_needed = true;  // false: nothing leans on it, so that what is wrong with a cell of it is a remark
};
// A column that is kept and that nothing leans on.
constexpr FieldSpec kept_only(int number, std::string_view name) {
  FieldSpec field{number, name};
  field.is_needed = false;
  return field;
}

// Whether every column stands at its number and has a heading, and none is left out up to the last.
template <std::size_t count>
constexpr bool are_complete(const std::array<FieldSpec, count>& fields, int last) {
  for (std::size_t i = 0; i < count; ++i) {
    if (fields[i].number != static_cast<int>(i) || fields[i].name.empty()) return false;
  }
  return last + 1 == static_cast<int>(count);
}

// A kind of file in a book, and what its columns are called. Field numbers are positions in `fields`.
struct TableSpec {
  std::string_view table;  // "readings"
  std::span<const FieldSpec> fields;
};

// The owner's own headings: theirs -> ours, with the place in book.toml.
using HeadingMap = std::map<std::string, std::pair<std::string, Place>>;

// How one file's columns lie.
struct TableLayout {
  static constexpr int absent = -1;
  std::vector<int> column_of_field;                // by field number; `absent` where nobody wrote it
  std::vector<int> clock_of_field;                 // of a moment whose time of day has a column of its own; or `absent`
  std::vector<Unit> unit_of_field;                 // as the heading says
  std::vector<std::pair<int, std::string>> notes;  // columns kept as notes: column, heading as written or its number
  std::size_t columns = 0;
  char separator = ',';
  std::size_t heading_begins = 0;  // byte offset of the heading line
  std::size_t rows_begin = 0;      // and behind it
  std::uint32_t first_line = 2;    // its line number
  IgnoredRows ignored;             // rows that are not of the table
  bool is_of_sheet = false;  // made of a sheet: a row is one line, whatever is in its cells, and a place is a cell

  bool has(int field) const { return column_of_field[static_cast<std::size_t>(field)] != absent; }
};

// "reading [mL/min]" -> {"reading", "mL/min"}; so, where they hold a unit, "reading (mL/min)" and "reading, mL/min".
// The unit is empty where there is none.
struct Heading {
  std::string name;
  std::optional<std::string> unit;
};
Heading split_heading(std::string_view text);

// A field's heading as one would write it, "reading [L/min]".
std::string heading_of(const FieldSpec& field);

// Which some programs put in front of a file's text.
inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// Our heading for one as it was written: the owner's own, with its unit or without; else the same.
std::string our_heading(std::string_view written, const HeadingMap& owners);

// The column that a heading of ours names; that of a moment also by "taken date" and "taken time".
struct NamedField {
  std::size_t number = 0;
  enum class Part : std::uint8_t { whole, date, clock } part = Part::whole;
};
std::optional<NamedField> field_named(const TableSpec& spec, std::string_view name);

// Headings match without regard to case, blanks, hyphens and underscores.
std::string heading_key(std::string_view name);

// Every heading that the owner maps has to be mapped to a column of the table; others are told in `problems`.
void check_owners_headings(const HeadingMap& owners, const TableSpec& spec, Diagnostics& problems);

// ',' ';' or tab: the one that stands most often in the heading line, outside quotes.
char separator_of(std::string_view heading_line);

// The text of a file, or the one that was made of a sheet.
struct TableText {
  std::string_view text;
  const std::string& file;
  std::uint32_t sheet_row = 0;     // of the text's beginning in its sheet; 0: it is a CSV file
  std::uint32_t heading_line = 0;  // as the owner says; 0: it is to be found
};

// Reads the heading line of a file, wherever it stands (heading_line.hpp). Faults (unknown unit, missing unit, missing
// column, heading written twice, no CSV) go to `problems` and nothing is returned; unknown columns are named once, in a
// remark. 64 bytes after the text must be readable.
std::optional<TableLayout> read_layout(const TableText& file, const TableSpec& spec, const HeadingMap& owners,
                                       Diagnostics& problems);

}  // namespace driftwarden

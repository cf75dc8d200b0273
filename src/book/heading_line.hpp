// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>

#include "book/table_layout.hpp"

namespace driftwarden {

// So many lines with something in them are looked at for one with headings.
inline constexpr std::size_t most_lines_above = 20;

struct HeadingLine {
  std::size_t at = 0;      // bytes before it; npos: there is no such line
  std::uint32_t line = 1;  // its number in the file, or the sheet
  bool was_found = false;  // below others, that is, and nobody said so
};

// The line of a file's headings: the one that the owner says; else the first if it has every column that is needed;
// else, of the first lines, the one with the most columns of the table, if it has two or more; else the first.
HeadingLine heading_line_of(const TableText& file, const TableSpec& spec, const HeadingMap& owners);

}  // namespace driftwarden

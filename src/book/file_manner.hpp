// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "book/settings.hpp"
#include "book/table_layout.hpp"

namespace driftwarden {

// How one file of a book was kept: what book.toml says of it, else what it says of all.
struct FileManner {
  const TimeZone* zone = nullptr;
  DateOrder dates = DateOrder::iso;
  char decimal = '.';
  std::uint32_t heading_line = 0;  // 0: to be found
  std::string sheet;               // "": none was named
  IgnoredRows ignored;
};

// Of a file, or a sheet of one ("readings/W46.xlsx:week 46"). Where several patterns fit, the last that says something
// is right. The settings must stay.
FileManner manner_of(const Settings& settings, std::string_view file);

// Whether a pattern (*, ?) is of a path from the book's folder, or of its last name; that of a workbook is of its
// sheets, too.
bool fits_pattern(const std::string& pattern, std::string_view path);

// settings/no-such-file: a remark on each pattern that fits none of these files.
Diagnostics idle_patterns(const Settings& settings, const std::vector<std::string>& files);

}  // namespace driftwarden

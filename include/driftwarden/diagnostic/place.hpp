// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace driftwarden {

// Where something was written: file (as named from the book's folder), line and column, both counted from 1.
// 0 means "the whole file" (line) or "the whole line" (column). Columns count characters, not bytes.
struct Place {
  std::string file;
  std::uint32_t line = 0;
  std::uint32_t column = 0;

  friend auto operator<=>(const Place&, const Place&) = default;
};

// "readings.csv:17:4", "readings.csv:17" or "readings.csv".
std::string to_text(const Place& place);

}  // namespace driftwarden

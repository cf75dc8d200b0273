// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace driftwarden {

using CsvRows = std::vector<std::vector<std::string>>;

// RFC 4180 once more, as a machine that looks at one byte after the other.
inline CsvRows read_slowly(std::string_view text, char separator) {
  enum { start, bare, quoted, quote_seen, behind } state = start;
  CsvRows rows;
  std::string cell;
  std::vector<std::string> row;
  const auto end_cell = [&] {
    row.push_back(cell);
    cell.clear();
    state = start;
  };
  const auto end_row = [&](bool was_bare) {
    if (was_bare && !cell.empty() && cell.back() == '\r') cell.pop_back();
    end_cell();
    rows.push_back(row);
    row.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (state == quoted) {
      if (c != '"') cell += c;
      if (c == '"') state = quote_seen;
    } else if (state == quote_seen && c == '"') {
      cell += c;
      state = quoted;
    } else if (c == separator) {
      end_cell();
    } else if (c == '\n') {
      end_row(state == bare);
    } else if (state == start && c == '"') {
      state = quoted;
    } else if (state == quote_seen || state == behind) {
      state = behind;  // text behind a closing quote is a fault, and left out
    } else {
      cell += c;
      state = bare;
    }
  }
  if (!text.empty() && (text.back() != '\n' || state == quoted)) end_row(state == bare);
  return rows;
}

}  // namespace driftwarden

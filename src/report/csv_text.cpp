// SPDX-License-Identifier: MIT
#include "report/csv_text.hpp"

#include <algorithm>
#include <charconv>

#include "diagnostic/characters.hpp"

namespace driftwarden {
namespace {

// Letters and digits all stand above the comma.
[[gnu::always_inline]] inline bool needs_quotes(char c) {
  return static_cast<unsigned char>(c) <= ',' && (c == ',' || c == '"' || c == '\r' || c == '\n');
}

}  // namespace

void append_csv(std::string& out, std::string_view text) {
  if (std::none_of(text.begin(), text.end(), needs_quotes)) {
    out += text;
    return;
  }
  append_in_csv_quotes(out, text);
}

void CsvRow::text(std::string_view cell) {
  if (std::none_of(cell.begin(), cell.end(), needs_quotes)) return plain(cell);
  std::string quoted;
  append_in_csv_quotes(quoted, cell);
  plain(quoted);
}

void CsvRow::count(std::size_t value) {
  char* const at = begin_cell();
  end_ = std::to_chars(at, at + longest_figure, value).ptr;
}

void append_csv_for_people(std::string& out, std::string_view text) {
  append_csv(out, runs_in_a_spreadsheet(text) ? "'" + std::string(text) : std::string(text));
}

}  // namespace driftwarden

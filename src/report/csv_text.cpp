// SPDX-License-Identifier: MIT
#include "driftwarden/report/csv_text.hpp"

#include <algorithm>

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
  out += '"';
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  out += '"';
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/report/csv_text.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace driftwarden {

void append_csv(std::string& out, std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) {
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

void append_figure(std::string& out, double figure) {
  if (!std::isfinite(figure)) return;
  std::array<char, 32> text;
  const auto [end, ignored] = std::to_chars(text.data(), text.data() + text.size(), figure);
  out.append(text.data(), end);
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "report/shortest_figure.hpp"

#include <fmt/compile.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace driftwarden {
namespace {

void append(std::string& out, const char* from, const char* to) {
  out.append(from, static_cast<std::size_t>(to - from));
}

}  // namespace

// Below 100000 whole numbers stand as such, and not with an exponent, in the shortest text. In the range of most
// figures a text with a point is the shortest for fmt as for std::to_chars, and fmt, by Dragonbox, has it in less time;
// std::to_chars writes all others.
void append_figure(std::string& out, double figure) {
  if (!std::isfinite(figure)) return;
  std::array<char, 40> text;
  char* const end_of_text = text.data() + text.size();
  const double magnitude = std::fabs(figure);
  const bool is_whole =
      magnitude < 1e5 && std::trunc(magnitude) == magnitude && (magnitude > 0 || !std::signbit(figure));
  if (is_whole) {
    return append(out, text.data(), std::to_chars(text.data(), end_of_text, static_cast<int>(figure)).ptr);
  }
  if (magnitude >= 1e-3 && magnitude < 1e15) {
    char* const end = fmt::format_to(text.data(), FMT_COMPILE("{}"), figure);
    // From here on a whole number may come without one.
    const bool has_point = magnitude < 1e5 || std::find(text.data(), end, '.') != end;
    if (has_point) return append(out, text.data(), end);
  }
  append(out, text.data(), std::to_chars(text.data(), end_of_text, figure).ptr);
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "plot/gnuplot_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "diagnostic/characters.hpp"
#include "diagnostic/escaped.hpp"
#include "quantity/elementary.hpp"
#include "quantity/number.hpp"

namespace driftwarden {

std::string gnuplot_quoted(std::string_view text) {
  std::string quoted = "'";
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, std::max<std::size_t>(length, 1));
    if (character == "'") quoted += '\'';
    // In an SVG a text stands in a section that these three characters end.
    const bool would_end_section = text.starts_with("]]>");
    quoted += length == 0 || is_control(character) ? escaped(character) : std::string(character);
    text.remove_prefix(character.size());
    if (would_end_section) quoted += ' ';
  }
  return quoted + "'";
}

std::string gnuplot_figure(double figure) { return std::isfinite(figure) ? shortest(figure) : "NaN"; }

std::string gnuplot_mark(const MarkStyle& mark) {
  return " pointtype " + std::to_string(mark.shape) + " pointsize " + gnuplot_figure(mark.size) + " linecolor rgb '" +
         mark.colour + "'";
}

std::string chart_figure(double figure, int digits) {
  if (!std::isfinite(figure)) return "";
  if (figure == 0) return "0";
  const int before_point = static_cast<int>(std::floor(elementary::log10(std::fabs(figure)))) + 1;
  const int decimals = std::clamp(digits - before_point, 0, 6);
  std::array<char, 64> text{};
  const auto [end, fault] =
      std::to_chars(text.data(), text.data() + text.size(), figure, std::chars_format::fixed, decimals);
  if (fault != std::errc()) return shortest(figure);
  std::string said(text.data(), end);
  if (said.find('.') != std::string::npos) {
    said.erase(said.find_last_not_of('0') + 1);
    if (said.back() == '.') said.pop_back();
  }
  if (said == "-0") return "0";
  return said.front() == '-' ? "−" + said.substr(1) : said;
}

}  // namespace driftwarden

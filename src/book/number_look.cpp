// SPDX-License-Identifier: MIT
#include "book/number_look.hpp"

#include <algorithm>
#include <string>

#include "diagnostic/letters.hpp"

namespace driftwarden {
namespace {

// The first section of a code (the one for positive numbers) without what is shown as it stands, and without colours,
// conditions and languages in brackets; "[h]", "[mm]" and "[ss]" stay, as they count on beyond a day.
std::string bare(std::string_view code) {
  std::string text;
  for (std::size_t i = 0; i < code.size() && code[i] != ';'; ++i) {
    if (code[i] == '"') {
      i = std::min(code.find('"', i + 1), code.size());
    } else if (code[i] == '\\' || code[i] == '_' || code[i] == '*') {
      ++i;
    } else if (code[i] == '[') {
      const std::size_t end = std::min(code.find(']', i), code.size());
      const std::string inside = in_small_letters(code.substr(i + 1, end - i - 1));
      const bool counts_on = !inside.empty() && inside.find_first_not_of(inside.front()) == std::string::npos &&
                             std::string_view("hms").find(inside.front()) != std::string_view::npos;
      if (counts_on) text += '[';
      i = end;
    } else {
      text += code[i];
    }
  }
  return in_small_letters(text);
}

}  // namespace

NumberLook look_of(std::string_view code) {
  using Kind = NumberLook::Kind;
  const std::string text = bare(code);
  if (text == "general" || text == "@") return {};
  if (text.find('[') != std::string::npos) return {Kind::duration};
  const bool has_time = text.find_first_of("hs") != std::string::npos;
  const bool has_date = text.find_first_of("yd") != std::string::npos ||
                        (!has_time && text.find('m') != std::string::npos);  // a month, and not minutes
  if (has_date) return {has_time ? Kind::date_time : Kind::date};
  if (has_time) return {Kind::time};
  if (text.find('%') != std::string::npos) return {Kind::percent};
  const bool is_noughts = text.size() > 1 && text.find_first_not_of('0') == std::string::npos;
  return {Kind::plain, is_noughts ? static_cast<int>(std::min<std::size_t>(text.size(), 15)) : 0};
}

NumberLook built_in_look(int number) {
  using Kind = NumberLook::Kind;
  const auto is_in = [number](int first, int last) { return number >= first && number <= last; };
  if (number == 9 || number == 10) return {Kind::percent};
  if (number == 22) return {Kind::date_time};
  if (number == 46) return {Kind::duration};
  if (is_in(18, 21) || number == 45 || number == 47) return {Kind::time};
  // Beside the common ones, those that East Asian languages use.
  if (is_in(14, 17) || is_in(27, 31) || number == 36 || is_in(50, 54) || is_in(57, 58)) return {Kind::date};
  if (is_in(32, 35) || is_in(55, 56)) return {Kind::time};
  return {};
}

}  // namespace driftwarden

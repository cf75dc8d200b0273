// SPDX-License-Identifier: MIT
#include "driftwarden/report/paint.hpp"

#include <algorithm>

namespace driftwarden {

std::string Paint::wrap(std::string_view code, std::string_view text) const {
  if (!has_colour_) return std::string(text);
  return "\x1b[" + std::string(code) + "m" + std::string(text) + "\x1b[0m";
}

std::string Paint::verdict(Verdict verdict, std::string_view text) const {
  switch (verdict) {
    case Verdict::valid:
      return std::string(text);
    case Verdict::qualified:
      return wrap("36", text);
    case Verdict::undecided:
      return wrap("33", text);
    case Verdict::void_:
      return wrap("1;35", text);
  }
  return std::string(text);
}

std::size_t characters_in(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string left(std::string_view text, std::size_t width) {
  const std::size_t length = characters_in(text);
  return std::string(text) + std::string(length < width ? width - length : 0, ' ');
}

std::string right(std::string_view text, std::size_t width) {
  const std::size_t length = characters_in(text);
  return std::string(length < width ? width - length : 0, ' ') + std::string(text);
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/report/terminal_text.hpp"

#include "driftwarden/diagnostic/characters.hpp"

namespace driftwarden {
namespace {

void append_bytes(std::string& out, std::string_view bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    out += "\\x";
    out += digits[byte >> 4U];
    out += digits[byte & 15U];
  }
}

bool is_line_end_or_tab(std::string_view character) {
  return character == "\n" || character == "\r" || character == "\t";
}

}  // namespace

std::string for_terminal(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, length == 0 ? 1 : length);
    text.remove_prefix(character.size());
    if (is_line_end_or_tab(character)) {
      out += ' ';
    } else if (length == 0 || is_control(character)) {
      append_bytes(out, character);
    } else {
      out += character;
    }
  }
  return out;
}

}  // namespace driftwarden

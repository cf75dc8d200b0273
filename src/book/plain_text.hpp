// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace driftwarden {

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Bytes of the blank of Unicode at the front of a text (no-break, thin, ideographic and the like), beyond those of
// ASCII; 0: there is none.
constexpr std::size_t wide_blank_at(std::string_view text) {
  if (text.starts_with("\xC2\xA0")) return 2;
  if (text.size() < 3) return 0;
  const std::string_view beginning = text.substr(0, 2);
  const auto last = static_cast<unsigned char>(text[2]);
  const bool is_blank = (beginning == "\xE2\x80" && (last <= 0x8A || last == 0xAF)) ||
                        (beginning == "\xE2\x81" && last == 0x9F) || (beginning == "\xE3\x80" && last == 0x80);
  return is_blank ? 3 : 0;
}

// A text without the blanks at its ends, of ASCII as named and of Unicode.
constexpr std::string_view trimmed(std::string_view text, std::string_view blanks = " \t") {
  const auto blank_in_front = [blanks](std::string_view rest) {
    return blanks.find(rest.front()) != std::string_view::npos ? 1 : wide_blank_at(rest);
  };
  while (!text.empty()) {
    const std::size_t size = blank_in_front(text);
    if (size == 0) break;
    text.remove_prefix(size);
  }
  while (!text.empty()) {
    std::size_t size = blanks.find(text.back()) != std::string_view::npos ? 1 : 0;
    for (const std::size_t bytes : {2U, 3U}) {
      if (size == 0 && text.size() >= bytes && wide_blank_at(text.substr(text.size() - bytes)) == bytes) size = bytes;
    }
    if (size == 0) break;
    text.remove_suffix(size);
  }
  return text;
}

}  // namespace driftwarden

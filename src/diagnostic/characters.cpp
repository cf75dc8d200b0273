// SPDX-License-Identifier: MIT
#include "diagnostic/characters.hpp"

namespace driftwarden {
namespace {

constexpr bool is_ascii(char c) { return (static_cast<unsigned char>(c) & 0x80U) == 0; }

bool is_continuation(std::string_view text, std::size_t i) {
  return i < text.size() && (byte_at(text, i) & 0xC0U) == 0x80U;
}

}  // namespace

std::size_t character_length(std::string_view text) {
  const unsigned first = text.empty() ? 0xFFU : byte_at(text, 0);
  if (first < 0x80U) return 1;
  if (first < 0xC2U || first > 0xF4U || !is_continuation(text, 1)) return 0;
  if (first < 0xE0U) return 2;
  const unsigned second = byte_at(text, 1);
  if (!is_continuation(text, 2)) return 0;
  if (first < 0xF0U) return (first == 0xE0U && second < 0xA0U) || (first == 0xEDU && second > 0x9FU) ? 0 : 3;
  const bool in_range = (first != 0xF0U || second >= 0x90U) && (first != 0xF4U || second <= 0x8FU);
  return in_range && is_continuation(text, 3) ? 4 : 0;
}

bool is_utf8(std::string_view text) {
  if (is_all_ascii(text)) return true;
  for (;;) {
    text.remove_prefix(front_of(text, is_ascii).size());
    if (text.empty()) return true;
    const std::size_t length = character_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
}

bool is_control(std::string_view character) {
  const unsigned first = byte_at(character, 0);
  if (character.size() == 1) return first < 0x20U || first == 0x7FU;
  if (character.size() == 2) return first == 0xC2U && byte_at(character, 1) < 0xA0U;  // U+0080 to U+009F
  const std::string_view start = character.substr(0, 2);
  const unsigned third = byte_at(character, 2);
  if (start == "\xE2\x80") return third >= 0xA8U && third <= 0xAEU;  // U+2028 to U+202E: line ends, direction marks
  if (start == "\xE2\x81") return third >= 0xA6U && third <= 0xA9U;  // U+2066 to U+2069: direction marks
  return false;
}

bool shows_itself(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    if (length == 0 || is_control(text.substr(0, length))) return false;
    text.remove_prefix(length);
  }
  return true;
}

void append_in_csv_quotes(std::string& out, std::string_view text) {
  out += '"';
  for (const char c : text) out.append(c == '"' ? 2 : 1, c);
  out += '"';
}

}  // namespace driftwarden

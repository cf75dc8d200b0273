// SPDX-License-Identifier: MIT
#include "driftwarden/diagnostic/diagnostic.hpp"

#include <cstddef>
#include <utility>

namespace driftwarden {

namespace {

constexpr std::size_t longest_quotation = 60;  // characters

unsigned byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

bool is_continuation(std::string_view text, std::size_t i) {
  return i < text.size() && (byte_at(text, i) & 0xC0U) == 0x80U;
}

// Bytes of the UTF-8 character at the front of a text; 0: that is not one (RFC 3629, overlong forms and surrogates
// left out).
std::size_t character_length(std::string_view text) {
  const unsigned first = byte_at(text, 0);
  if (first < 0x80U) return 1;
  if (first < 0xC2U || first > 0xF4U || !is_continuation(text, 1)) return 0;
  if (first < 0xE0U) return 2;
  const unsigned second = byte_at(text, 1);
  if (!is_continuation(text, 2)) return 0;
  if (first < 0xF0U) return (first == 0xE0U && second < 0xA0U) || (first == 0xEDU && second > 0x9FU) ? 0 : 3;
  const bool in_range = (first != 0xF0U || second >= 0x90U) && (first != 0xF4U || second <= 0x8FU);
  return in_range && is_continuation(text, 3) ? 4 : 0;
}

// Characters that act on a terminal or on the order of the text around them instead of showing themselves.
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

std::string escaped(std::string_view bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    text += "\\x";
    text += digits[byte_at(bytes, i) >> 4U];
    text += digits[byte_at(bytes, i) & 0xFU];
  }
  return text;
}

}  // namespace

std::string_view to_text(Severity severity) { return severity == Severity::error ? "error" : "remark"; }

std::string to_text(const Diagnostic& diagnostic) {
  std::string text = to_text(diagnostic.place);
  if (!text.empty()) text += ": ";
  text += to_text(diagnostic.severity);
  text += ": " + diagnostic.message;
  if (!diagnostic.hint.empty()) text += "; " + diagnostic.hint;
  return text + " [" + diagnostic.id + ']';
}

Diagnostic error(std::string id, Place place, std::string message, std::string hint) {
  return {std::move(id), Severity::error, std::move(place), std::move(message), std::move(hint)};
}

Diagnostic remark(std::string id, Place place, std::string message, std::string hint) {
  return {std::move(id), Severity::remark, std::move(place), std::move(message), std::move(hint)};
}

std::string in_quotes(std::string_view text) {
  std::string shown = "'";
  std::string shown_but_the_last;  // in case there is more than fits
  for (std::size_t count = 0; !text.empty(); ++count) {
    if (count == longest_quotation) return shown_but_the_last + "…'";
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, length == 0 ? 1 : length);
    text.remove_prefix(character.size());
    shown_but_the_last = shown;
    shown += length == 0 || is_control(character) ? escaped(character) : std::string(character);
  }
  return shown + '\'';
}

}  // namespace driftwarden

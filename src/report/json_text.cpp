// SPDX-License-Identifier: MIT
#include "report/json_text.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "diagnostic/characters.hpp"
#include "diagnostic/hexadecimal.hpp"
#include "report/shortest_figure.hpp"

namespace driftwarden {
namespace {

void append_escaped(std::string& out, char c) {
  switch (c) {
    case '"':
      out += "\\\"";
      return;
    case '\\':
      out += "\\\\";
      return;
    case '\n':
      out += "\\n";
      return;
    case '\r':
      out += "\\r";
      return;
    case '\t':
      out += "\\t";
      return;
    default:
      break;
  }
  out += "\\u";
  append_hexadecimal(out, static_cast<unsigned char>(c), 4);
}

// A character of two or three bytes as \u202e: marks and controls that would act where the text is shown.
void append_by_number(std::string& out, std::string_view character) {
  unsigned number = byte_at(character, 0) & (character.size() == 2 ? 0x1FU : 0x0FU);
  for (std::size_t i = 1; i < character.size(); ++i) number = number << 6U | (byte_at(character, i) & 0x3FU);
  out += "\\u";
  append_hexadecimal(out, number, 4);
}

constexpr bool needs_none(char c) { return is_printable_ascii(c) && c != '"' && c != '\\'; }
// Whether none of eight characters needs any.
bool need_none(std::uint64_t eight) {
  constexpr std::uint64_t ones = 0x0101010101010101U;
  constexpr std::uint64_t tops = 0x80U * ones;
  const auto has_zero = [](std::uint64_t bytes) { return (bytes - ones) & ~bytes & tops; };
  const std::uint64_t below_blank = (eight - 0x20U * ones) & ~eight;
  return ((eight | below_blank) & tops) == 0 &&
         (has_zero(eight ^ '"' * ones) | has_zero(eight ^ '\\' * ones) | has_zero(eight ^ 0x7FU * ones)) == 0;
}

std::string_view plain_front(std::string_view text) {
  std::size_t length = 0;
  for (std::uint64_t eight = 0; length + 8 <= text.size(); length += 8) {
    std::memcpy(&eight, text.data() + length, 8);
    if (!need_none(eight)) break;
  }
  return text.substr(0, length + front_of(text.substr(length), needs_none).size());
}

bool needs_escape(char c) { return c == '"' || c == '\\' || static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }

}  // namespace

void JsonText::separate() {
  if (needs_comma_) out_ += ',';
  needs_comma_ = true;
}

JsonText& JsonText::key(std::string_view name) {
  value(name);
  out_ += ':';
  needs_comma_ = false;
  return *this;
}

JsonText& JsonText::begin_object() {
  separate();
  out_ += '{';
  needs_comma_ = false;
  return *this;
}

JsonText& JsonText::end_object() {
  out_ += '}';
  needs_comma_ = true;
  return *this;
}

JsonText& JsonText::begin_array() {
  separate();
  out_ += '[';
  needs_comma_ = false;
  return *this;
}

JsonText& JsonText::end_array() {
  out_ += ']';
  needs_comma_ = true;
  return *this;
}

JsonText& JsonText::value(std::string_view text) {
  separate();
  out_ += '"';
  while (!text.empty()) {
    const std::string_view plain = plain_front(text);
    out_ += plain;
    text.remove_prefix(plain.size());
    if (text.empty()) break;
    const std::size_t length = character_length(text);
    if (length == 0) {
      out_ += "\xEF\xBF\xBD";
    } else if (length > 1 && is_control(text.substr(0, length))) {
      append_by_number(out_, text.substr(0, length));
    } else if (length == 1 && needs_escape(text.front())) {
      append_escaped(out_, text.front());
    } else {
      out_ += text.substr(0, length);
    }
    text.remove_prefix(length == 0 ? 1 : length);
  }
  out_ += '"';
  return *this;
}

JsonText& JsonText::value(double figure) {
  if (!std::isfinite(figure)) return null();
  separate();
  append_figure(out_, figure);
  return *this;
}

JsonText& JsonText::value(std::size_t count) {
  separate();
  out_ += std::to_string(count);
  return *this;
}

JsonText& JsonText::value(bool yes) {
  separate();
  out_ += yes ? "true" : "false";
  return *this;
}

JsonText& JsonText::null() {
  separate();
  out_ += "null";
  return *this;
}

JsonText& JsonText::text_or_null(std::string_view name, std::string_view text) {
  key(name);
  return text.empty() ? null() : value(text);
}

JsonText& JsonText::texts(std::string_view name, std::span<const std::string> all) {
  key(name).begin_array();
  for (const std::string& text : all) value(text);
  return end_array();
}

JsonText& JsonText::raw(std::string_view json) {
  separate();
  out_ += json;
  needs_comma_ = true;
  return *this;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/report/json_text.hpp"

#include <array>
#include <cmath>

#include "driftwarden/report/figure_text.hpp"

namespace driftwarden {

std::size_t utf8_length(std::string_view text) {
  const auto byte = [&text](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const auto continues = [&byte](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
  const unsigned first = byte(0);
  if (first < 0x80U) return 1;
  if (first >= 0xC2U && first < 0xE0U && continues(1)) return 2;
  if (first >= 0xE0U && first < 0xF0U && continues(1) && continues(2)) {
    const bool is_overlong = first == 0xE0U && byte(1) < 0xA0U;
    const bool is_surrogate = first == 0xEDU && byte(1) >= 0xA0U;
    return is_overlong || is_surrogate ? 0 : 3;
  }
  if (first >= 0xF0U && first < 0xF5U && continues(1) && continues(2) && continues(3)) {
    const bool is_out_of_range = (first == 0xF0U && byte(1) < 0x90U) || (first == 0xF4U && byte(1) >= 0x90U);
    return is_out_of_range ? 0 : 4;
  }
  return 0;
}

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
  constexpr std::string_view digits = "0123456789abcdef";
  const auto byte = static_cast<unsigned char>(c);
  out += "\\u00";
  out += digits[byte >> 4U];
  out += digits[byte & 15U];
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
    const std::size_t length = utf8_length(text);
    if (length == 0) {
      out_ += "\xEF\xBF\xBD";
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

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/report/html_text.hpp"

#include <array>
#include <cstdint>

#include "driftwarden/report/json_text.hpp"

namespace driftwarden {
namespace {

char32_t code_of(std::string_view sequence) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(sequence[i]); };
  if (sequence.size() == 1) return byte(0);
  char32_t code = byte(0) & (0xFFU >> (sequence.size() + 1));
  for (std::size_t i = 1; i < sequence.size(); ++i) code = (code << 6U) | (byte(i) & 0x3FU);
  return code;
}

bool is_hidden(char32_t code) {
  if (code < 0x20 || (code >= 0x7F && code < 0xA0)) return true;  // controls
  if (code >= 0x200B && code <= 0x200F) return true;              // zero width, marks
  return (code >= 0x2028 && code <= 0x202E) || (code >= 0x2060 && code <= 0x206F) || code == 0x61C || code == 0xFEFF;
}

std::string by_code(char32_t code) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string text = "⟨U+";
  for (unsigned shift = 16; shift > 0;) {
    shift -= 4;
    text += digits[(code >> shift) & 0xFU];
  }
  return text + "⟩";
}

void append(std::string& out, std::string_view sequence) {
  const char32_t code = code_of(sequence);
  if (code == U'&') {
    out += "&amp;";
  } else if (code == U'<') {
    out += "&lt;";
  } else if (code == U'>') {
    out += "&gt;";
  } else if (code == U'"') {
    out += "&quot;";
  } else if (code == U'\'') {
    out += "&#39;";
  } else {
    out += is_hidden(code) ? by_code(code) : std::string(sequence);
  }
}

}  // namespace

std::string html(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0) {
      out += "\xEF\xBF\xBD";
    } else {
      append(out, text.substr(0, length));
    }
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return out;
}

std::string isolated(std::string_view text) { return "<bdi>" + html(text) + "</bdi>"; }

}  // namespace driftwarden

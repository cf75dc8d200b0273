// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

namespace driftwarden {

// Bytes of the UTF-8 character at the front of a text; 0: there is none, or that is not one (RFC 3629, overlong forms
// and surrogates left out).
std::size_t character_length(std::string_view text);

// Whether all bytes are of ASCII; eight at a time.
inline bool is_all_ascii(std::string_view text) {
  constexpr std::uint64_t beyond_ascii = 0x8080808080808080U;
  std::uint64_t bits = 0;
  std::size_t i = 0;
  for (; i + 8 <= text.size(); i += 8) {
    std::uint64_t eight = 0;
    std::memcpy(&eight, text.data() + i, 8);
    bits |= eight;
  }
  for (; i < text.size(); ++i) bits |= static_cast<unsigned char>(text[i]);
  return (bits & beyond_ascii) == 0;
}

bool is_utf8(std::string_view text);

// Printable ASCII: a byte that is a character, and shows itself.
constexpr bool is_printable_ascii(char c) { return c >= 0x20 && c < 0x7F; }

// What stands at the front of a text as long as every byte is of a kind.
template <class IsOfTheKind>
constexpr std::string_view front_of(std::string_view text, IsOfTheKind is_of_the_kind) {
  std::size_t length = 0;
  while (length < text.size() && is_of_the_kind(text[length])) ++length;
  return text.substr(0, length);
}

inline unsigned byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

// Whether a character acts on a terminal or on the order of the text around it instead of showing itself.
bool is_control(std::string_view character);

// Whether a text may be shown as it is: UTF-8, without such characters.
bool shows_itself(std::string_view text);

// A text as a cell of a CSV file in quotes, those inside it doubled (RFC 4180).
void append_in_csv_quotes(std::string& out, std::string_view text);

// Whether a spreadsheet that opens a CSV takes a cell of this text for something to work out: '=', '+', '-', '@', a tab
// or a carriage return stands first (common practice of those who test such files; known for the usual spreadsheets).
inline bool runs_in_a_spreadsheet(std::string_view text) {
  return !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
}

}  // namespace driftwarden

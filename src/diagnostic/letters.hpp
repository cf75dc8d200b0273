// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// Capitals of ASCII as small letters; every other byte as it is, in any locale.
constexpr char small_letter(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

inline std::string in_small_letters(std::string_view text) {
  std::string small(text);
  for (char& c : small) c = small_letter(c);
  return small;
}

// In small letters and without blanks: by which names that people write find each other.
inline std::string bare_name(std::string_view name) {
  std::string letters;
  for (const char c : name) {
    if (c != ' ' && c != '\t') letters += small_letter(c);
  }
  return letters;
}

}  // namespace driftwarden

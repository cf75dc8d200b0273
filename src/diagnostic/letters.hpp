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

}  // namespace driftwarden

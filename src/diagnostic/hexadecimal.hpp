// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

inline constexpr std::string_view small_hexadecimal = "0123456789abcdef";
inline constexpr std::string_view capital_hexadecimal = "0123456789ABCDEF";

// Appends the last `count` hexadecimal digits of a number, noughts in front.
inline void append_hexadecimal(std::string& out, unsigned number, unsigned count,
                               std::string_view digits = small_hexadecimal) {
  while (count-- > 0) out += digits[number >> (4 * count) & 0xFU];
}

// A path for a URI (RFC 3986): what is no unreserved character and no '/' by its bytes, as %20.
inline std::string percent_encoded(std::string_view path) {
  constexpr std::string_view plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/";
  std::string text;
  for (const char c : path) {
    const bool is_plain = plain.find(c) != std::string_view::npos;
    text += is_plain ? c : '%';
    if (!is_plain) append_hexadecimal(text, static_cast<unsigned char>(c), 2, capital_hexadecimal);
  }
  return text;
}

}  // namespace driftwarden

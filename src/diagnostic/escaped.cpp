// SPDX-License-Identifier: MIT
#include "driftwarden/diagnostic/escaped.hpp"

namespace driftwarden {

std::string escaped(std::string_view bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    text += {'\\', 'x', digits[byte >> 4U], digits[byte & 0xFU]};
  }
  return text;
}

}  // namespace driftwarden

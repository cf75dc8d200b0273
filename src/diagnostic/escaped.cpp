// SPDX-License-Identifier: MIT
#include "diagnostic/escaped.hpp"

#include "diagnostic/hexadecimal.hpp"

namespace driftwarden {

std::string escaped(std::string_view bytes) {
  std::string text;
  for (const char c : bytes) {
    text += "\\x";
    append_hexadecimal(text, static_cast<unsigned char>(c), 2);
  }
  return text;
}

}  // namespace driftwarden

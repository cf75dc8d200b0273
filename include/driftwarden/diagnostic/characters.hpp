// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string_view>

namespace driftwarden {

// Bytes of the UTF-8 character at the front of a text; 0: there is none, or that is not one (RFC 3629, overlong forms
// and surrogates left out).
std::size_t character_length(std::string_view text);

bool is_utf8(std::string_view text);

inline unsigned byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

// Whether a character acts on a terminal or on the order of the text around it instead of showing itself.
bool is_control(std::string_view character);

// Whether a text may be shown as it is: UTF-8, without such characters.
bool shows_itself(std::string_view text);

}  // namespace driftwarden

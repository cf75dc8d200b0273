// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string_view>

namespace driftwarden {

// Bytes of the UTF-8 character at the front of a text that is not empty; 0: that is not one (RFC 3629, overlong forms
// and surrogates left out).
std::size_t character_length(std::string_view text);

// Characters that act on a terminal or on the order of the text around them instead of showing themselves: controls,
// line and paragraph separators, marks that turn the direction round.
bool is_control(std::string_view character);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// A text of unknown origin for a page, between tags or in a quoted attribute: what HTML would read is escaped, and
// characters that show nothing or turn the line around (controls, bidirectional marks) are written by their code, as in
// ⟨U+202E⟩. Bytes that aren't UTF-8 become U+FFFD.
std::string html(std::string_view text);

// The same in an element of its own, so that a text that runs from right to left stays within itself.
std::string isolated(std::string_view text);

}  // namespace driftwarden

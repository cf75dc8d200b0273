// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// A text of the book's as it may stand in a line on a terminal: characters that act instead of showing themselves
// (controls, marks that turn the direction of the text) and bytes that are no UTF-8 are written as \x.., line ends and
// tabs as blanks.
std::string for_terminal(std::string_view text);

}  // namespace driftwarden

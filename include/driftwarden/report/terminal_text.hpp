// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace driftwarden {

// Columns that a table keeps to, and those of running text with its workings.
inline constexpr std::size_t table_width = 80;
inline constexpr std::size_t working_width = 100;

// A text of the book's as it may stand in a line on a terminal: characters that act instead of showing themselves
// (controls, marks that turn the direction of the text) and bytes that are no UTF-8 are written as \x.., line ends and
// tabs as blanks.
std::string for_terminal(std::string_view text);

}  // namespace driftwarden

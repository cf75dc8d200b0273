// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>

namespace driftwarden {

// Writes a figure, the shortest text that reads back to the same double; nothing for a missing one or one beyond all
// numbers (a drift from a flow of 0). There is room for the longest; what stands behind the text's end, which comes
// back, may be written over.
inline constexpr std::size_t longest_figure = 48;
char* put_figure(char* at, double figure);

// Appends it.
void append_figure(std::string& out, double figure);

}  // namespace driftwarden

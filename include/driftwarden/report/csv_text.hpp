// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// Appends a text as a CSV cell (RFC 4180): in quotes, doubled inside, only where it needs them.
void append_csv(std::string& out, std::string_view text);

// Appends a figure, the shortest text that reads back to the same double; nothing for a missing one or one
// beyond all numbers (a drift from a flow of 0).
void append_figure(std::string& out, double figure);

}  // namespace driftwarden

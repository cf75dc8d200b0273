// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace driftwarden {

// Appends a figure, the shortest text that reads back to the same double; nothing for a missing one or one
// beyond all numbers (a drift from a flow of 0).
void append_figure(std::string& out, double figure);

}  // namespace driftwarden

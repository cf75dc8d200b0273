// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "report/shortest_figure.hpp"

namespace driftwarden {

// Appends a text as a CSV cell (RFC 4180): in quotes, doubled inside, only where it needs them.
void append_csv(std::string& out, std::string_view text);

// The same for a CSV that people open in a spreadsheet: what that would run as a formula has an apostrophe before it
// and stays text.
void append_csv_for_people(std::string& out, std::string_view text);

}  // namespace driftwarden

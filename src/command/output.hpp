// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "driftwarden/command/command_line.hpp"

namespace driftwarden {

// Writes a result to a file, or to standard output where none is named. False (told) where it can't be written.
bool write_out(std::string_view text, const std::string& file, Surroundings& surroundings);

}  // namespace driftwarden

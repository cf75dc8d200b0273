// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "command/command_line.hpp"
#include "diagnostic/diagnostic.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// Writes a result to a file, or to standard output where none is named. A table, which people read, is made safe on its
// way; what other programs read goes out byte for byte. False (told) where it can't be written.
bool write_out(std::string_view text, const std::string& format, const std::string& file, Surroundings& surroundings);

// Writes a page: as it is, or as "pdf", whose date is the day of `as_of`. Why it can't be done.
Diagnostics write_page(const std::string& html, const std::string& format, const std::string& file, Day as_of);

inline bool is_for_people(std::string_view format) { return format == "table"; }

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>

#include "diagnostic/diagnostic.hpp"
#include "record/moment.hpp"

namespace driftwarden {

inline constexpr const char* browser_program = "chromium";

// Has the browser print an HTML file into a PDF file, without a window, network or profile of its own; `scratch` is an
// empty folder for it to work in. The PDF says it was made on `day`, so that the same page gives the same bytes.
// Faults: print/no-browser (the program isn't there), print/failed, output/unwritable.
Diagnostics print_to_pdf(const std::filesystem::path& html, const std::filesystem::path& pdf,
                         const std::filesystem::path& scratch, Day day, const std::string& program = browser_program);

// A PDF's text with both of its dates set to the begin of a day, UTC.
std::string with_dates_of(std::string pdf, Day day);

}  // namespace driftwarden

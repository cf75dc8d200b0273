// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string_view>

namespace driftwarden {

// By these a page tells that the program wrote it: in the head of its HTML, and behind the end of a PDF. A page that is
// kept in a book's folder is then no file that nobody read.
inline constexpr std::string_view html_mark = "<meta name=\"generator\" content=\"driftwarden\">\n";
inline constexpr std::string_view pdf_mark = "\n%driftwarden\n";

bool is_own_page(const std::filesystem::path& path);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "driftwarden/book/book.hpp"

namespace driftwarden {

// Whether a file to be written is one of the book's own.
bool is_of_the_book(const Book& book, const std::string& file);

// Writes a file anew. False where not all of it could be written; errno then says why.
bool is_written(const std::filesystem::path& file, std::string_view text);

// What is told where results would replace a file of the book, and where they can't be written,
Diagnostic over_the_book(const std::string& file);
// with the system's reason (an errno) as far as it is known.
Diagnostic unwritable(const std::string& file, int reason = 0);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "driftwarden/book/book.hpp"

namespace driftwarden {

// Whether a file to be written is one of the book's own.
bool is_of_the_book(const Book& book, const std::string& file);

// What is told where results would replace a file of the book.
Diagnostic over_the_book(const std::string& file);

}  // namespace driftwarden

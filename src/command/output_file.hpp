// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "book/book.hpp"

namespace driftwarden {

// Whether a file or folder to be written is one of the book's own: a table, its settings, a rule pack that it names,
// under whatever name; or lies where those are looked for, so that the next run would read it.
bool is_of_the_book(const Book& book, const std::string& file);

// Whether it is one of the files that a run reads, under whatever name.
bool is_among(const std::vector<std::filesystem::path>& inputs, const std::string& file);

// What is told where results would replace a file of the book,
Diagnostic over_the_book(const std::string& file);
// and where they would replace another that they are made from.
Diagnostic over_an_input(const std::string& file);

}  // namespace driftwarden

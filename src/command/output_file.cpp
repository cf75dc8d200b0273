// SPDX-License-Identifier: MIT
#include "command/output_file.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "driftwarden/book/book_table.hpp"

namespace driftwarden {

bool is_of_the_book(const Book& book, const std::string& file) {
  const std::vector<std::string> names = files_of(book);
  std::error_code ignored;
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    return std::filesystem::equivalent(book.folder / name, file, ignored);
  });
}

Diagnostic over_the_book(const std::string& file) {
  return error("output/over-the-book", {file, 0, 0}, "the results would replace a file of the book",
               "name another file");
}

}  // namespace driftwarden

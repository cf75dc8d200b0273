// SPDX-License-Identifier: MIT
#include "command/output_file.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <system_error>

namespace driftwarden {

bool is_of_the_book(const Book& book, const std::string& file) {
  std::vector<std::string> names{"book.toml"};
  for (const auto* table : {&book.files.instruments, &book.files.certificates, &book.files.samples,
                            &book.files.readings, &book.files.decisions, &book.files.service}) {
    names.insert(names.end(), table->begin(), table->end());
  }
  std::error_code ignored;
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    return std::filesystem::equivalent(book.folder / name, file, ignored);
  });
}

bool is_written(const std::filesystem::path& file, std::string_view text) {
  errno = 0;
  std::ofstream out(file, std::ios::binary);
  out << text << std::flush;
  return static_cast<bool>(out);
}

Diagnostic over_the_book(const std::string& file) {
  return error("output/over-the-book", {file, 0, 0}, "the results would replace a file of the book",
               "name another file");
}

Diagnostic unwritable(const std::string& file, int reason) {
  return error("output/unwritable", {file, 0, 0},
               "the results could not be written" + (reason == 0 ? "" : ": " + std::generic_category().message(reason)),
               "check the folder, its rights and the room on the disk");
}

}  // namespace driftwarden

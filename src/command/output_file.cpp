// SPDX-License-Identifier: MIT
#include "command/output_file.hpp"

#include <algorithm>
#include <system_error>

#include "book/book_table.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// Where a path leads, whether anything is there or not.
fs::path end_of(const fs::path& path) {
  std::error_code failure;
  const fs::path end = fs::weakly_canonical(path, failure);
  return failure ? fs::absolute(path).lexically_normal() : end;
}

bool is_in_or_is(const fs::path& path, const fs::path& folder) {
  const auto [left, unused] = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
  return left == folder.end();
}

// The files that a book may be read from, there or not; tables also in folders of their names.
std::vector<fs::path> looked_for(const Book& book) {
  std::vector<fs::path> places{book.folder / "book.toml"};
  for (const BookTable& table : book_tables()) {
    places.push_back(book.folder / table.file());
    places.push_back(book.folder / table.name());
  }
  for (const std::string& pack : book.settings.packs) {
    if (pack.ends_with(".toml")) places.push_back(book.folder / pack);
  }
  return places;
}

// What lies in a folder of a table is found through links and hard links, too.
std::vector<fs::path> files_read(const Book& book) {
  std::vector<fs::path> files;
  for (const std::string& name : files_of(book)) files.push_back(book.folder / name);
  return files;
}

}  // namespace

bool is_among(const std::vector<fs::path>& inputs, const std::string& file) {
  return std::any_of(inputs.begin(), inputs.end(), [&file](const fs::path& input) {
    std::error_code ignored;
    return fs::equivalent(input, file, ignored);
  });
}

bool is_of_the_book(const Book& book, const std::string& file) {
  if (file.empty()) return false;
  const std::vector<fs::path> places = looked_for(book);
  const fs::path end = end_of(file);
  const bool is_looked_for = std::any_of(places.begin(), places.end(), [&](const fs::path& place) {
    return is_in_or_is(end, end_of(place)) ||
           is_in_or_is(fs::absolute(file).lexically_normal(), fs::absolute(place).lexically_normal());
  });
  return is_looked_for || is_among(places, file) || is_among(files_read(book), file);
}

Diagnostic over_the_book(const std::string& file) {
  return error("output/over-the-book", {file, 0, 0}, "the results would replace a file of the book",
               "name another file");
}

Diagnostic over_an_input(const std::string& file) {
  return error("output/over-an-input", {file, 0, 0}, "the results would replace a file that they are made from",
               "name another file");
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <functional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "book/book.hpp"
#include "book/rows_received.hpp"

namespace driftwarden {

// A book as it would be with rows that came from elsewhere: read from a scratch folder that leads to the book's own
// files, with the rows as the files beside them that they would be, so that book.toml says the same of those. Nothing
// is written into the book.
struct BookWithRows {
  Book book;  // its folder is that of the book itself
  std::vector<RowsReceived> rows;
  std::vector<std::string> files;  // of the rows, in their order: "readings/received-2026-11-30-4f2a9c1b7e55.csv"

  // Of the files of a table, samples or readings, by number: which of the rows stand in it; nothing in the book's own.
  std::vector<const RowsReceived*> came_in(const std::vector<std::string>& table_files) const;
  // Files and lines of rows with a fault of their own; that a name stands twice is none of these.
  std::set<std::pair<std::string, std::uint32_t>> faulty_rows() const;
  // A place in the file as it came; one in the book stays as it is.
  Place as_it_came(Place place) const;
  // The names of the files in a message, likewise.
  std::string as_it_came(std::string message) const;
};
Result<BookWithRows> book_with_rows(const Book& before, std::vector<RowsReceived> rows, Day day, unsigned threads);

// Writes the rows as new files of the book, and the receipts that make them count behind received.csv: until that is
// done, none of the files is read as a part of the book. Faults: output/…, table/…; then nothing has changed.
Diagnostics write_received(const Book& book, const BookWithRows& with, const std::vector<Receipt>& receipts,
                           const std::function<void()>& waits);

}  // namespace driftwarden

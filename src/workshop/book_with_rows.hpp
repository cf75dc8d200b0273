// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "book/rows_received.hpp"

namespace driftwarden {

// A book as it would be with rows that came from elsewhere: read from a scratch folder that leads to the book's own
// files, with the rows as files beside them. Nothing is written into the book.
struct BookWithRows {
  Book book;                       // its folder is that of the book itself
  std::vector<std::string> files;  // of the rows, in their order: "readings/incoming-1.csv"
};
Result<BookWithRows> book_with_rows(const std::filesystem::path& folder, const std::vector<RowsReceived>& rows,
                                    unsigned threads);

// Writes the rows as new files of the book, and the receipts that make them count behind received.csv: until that is
// done, none of the files is read as a part of the book. The receipts' names of files are made here. Faults: output/…,
// table/…; then nothing has changed.
Diagnostics write_received(const Book& book, const std::vector<RowsReceived>& rows, std::vector<Receipt>& receipts,
                           const std::function<void()>& waits);

}  // namespace driftwarden

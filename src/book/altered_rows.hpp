// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string_view>

#include "book/book.hpp"

namespace driftwarden {

// What the rows of a file of samples or readings come to, as the book reads them.
struct RowsOfFile {
  std::size_t rows = 0;
  std::size_t struck_out = 0;
  Moment first = no_moment;  // the earliest and the latest time in them
  Moment last = no_moment;

  void take(Moment moment);
};
std::map<std::string_view, RowsOfFile> rows_of_files(const Book& book);

// receive/altered: a remark on each file that rows were received into and that holds others by now, or whose rows are
// read otherwise: not all of them, one that came struck out as one that counts, or their times as others. That readings
// were struck out there, with void and a note, is as it should be.
Diagnostics altered_rows(const Book& book);

}  // namespace driftwarden

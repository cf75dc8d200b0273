// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "book/book.hpp"
#include "book/table_layout.hpp"

namespace driftwarden {

// Appends a decision to the book's decisions.csv, which is made where there is none, and gives back the place of its
// row. The file only ever grows: what stands there keeps its bytes, and the file's own columns, separator and line ends
// are followed. Several programs may do so at once: each waits for the others (a lock on the file), writes its row in
// one go behind the last one, and has it on the disk before it returns. A last line without an end gets one. Where it
// fails, the file is as it was, or not there if it wasn't. `waits` is called before waiting for others.
// Faults: those of a heading line or an open quote in the file; decisions/unwritable.
Result<Place> append_decision(const Book& book, const Decision& decision, const std::function<void()>& waits = {});

// The row as it is written, by the file's columns; cells are in quotes where they need them.
std::string decision_row(const TableLayout& layout, const Decision& decision, const TimeZone& zone,
                         std::string_view line_end);

}  // namespace driftwarden

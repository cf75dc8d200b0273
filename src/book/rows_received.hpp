// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <set>
#include <string>
#include <string_view>

#include "book/settings.hpp"
#include "book/table_layout.hpp"
#include "diagnostic/result.hpp"

namespace driftwarden {

// The column in which rows name the form that they were typed into; it is not written into the book.
inline constexpr std::string_view form_column = "form";

// Whether a file is called as those are into which rows were received: "received-2026-11-30-4f2a9c1b7e55.csv".
bool is_received_name(std::string_view file);

// Names, a line each, the files that a run of receive is about to write, or was when it was ended: no receipt of theirs
// was lost.
inline constexpr std::string_view receiving_note = ".driftwarden-receiving";
std::set<std::string> names_being_received(const std::filesystem::path& book);

// Rows that came in a file from elsewhere, by the book's own headings: samples or readings.
struct RowsReceived {
  const TableSpec* spec = nullptr;
  std::string form;  // "" where the rows name none
  std::string text;  // as it is to be written into the book: the same rows, without the column of the form
  std::size_t rows = 0;
  std::string sha256;  // of the file as it came

  // "readings/received-2026-11-30-4f2a9c1b7e55.csv": by what is in it, so that the same rows have one name.
  std::string name_on(Day day) const;
};

// Reads such a file. Which table it is of is told by its headings. Faults: file/unreadable, receive/unknown-table, a
// fault of its headings or quotes, receive/empty, receive/forms.
Result<RowsReceived> rows_received(const std::filesystem::path& path, const Settings& settings);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "book/table_layout.hpp"

namespace driftwarden {

struct TableFile;
struct BookInHand;

// A table of a book. Whoever does something for every table goes through the list of them; a further table is one entry
// more, with its columns and its reader.
struct BookTable {
  const TableSpec* spec = nullptr;
  std::vector<std::string> BookFiles::*files = nullptr;
  bool is_required = false;      // no book without it
  bool takes_documents = false;  // digital calibration certificates, TABLE/*.xml
  bool is_of_parts = false;      // split writes it into the parts of a book, and nobody else does
  void (*read)(const std::vector<TableFile>& files, const BookInHand& hand) = nullptr;
  std::size_t (*size)(const Book& book) = nullptr;  // how many records were made of its rows
  std::string_view one, many;                       // and what they are called
  bool is_kept_by_few = false;  // new writes none, and check counts its records only where there is one

  std::string name() const { return std::string(spec->table); }  // "readings"
  std::string file() const { return name() + ".csv"; }           // as it is called where there is one file of it
};

// In the order in which they are read: what is named stands before what names it.
std::span<const BookTable> book_tables();

// The heading line of a table's new file: every column, in its usual unit.
std::string heading_line(const TableSpec& spec);

// The names of all files that a book was read from, from its folder: book.toml, then those of each table.
std::vector<std::string> files_of(const Book& book);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "driftwarden/book/book.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/book/problem_list.hpp"
#include "driftwarden/book/row_reader.hpp"
#include "driftwarden/book/table_layout.hpp"

// How each kind of file becomes records: the specification of its columns, and a function.
namespace driftwarden {

// One file of a table, opened, with its heading line understood.
struct TableFile {
  std::string name;
  std::uint32_t number = 0;  // in the table's list of files
  MappedFile bytes;
  TableLayout layout;
};

// A book while it is read.
struct BookInHand {
  Book& book;
  ProblemList& problems;
  SharedTexts& texts;
  unsigned threads;

  RowContext context(const TableFile& file, const TableSpec& spec) const {
    return {file.layout, spec, file.name, book.settings.zone, book.settings.dates, book.settings.decimal, texts, problems};
  }
};

extern const TableSpec instruments_spec;
extern const TableSpec certificates_spec;
extern const TableSpec samples_spec;
extern const TableSpec readings_spec;
extern const TableSpec decisions_spec;

void read_instruments(const std::vector<TableFile>& files, const BookInHand& hand);
void read_certificates(const std::vector<TableFile>& files, const BookInHand& hand);
void read_samples(const std::vector<TableFile>& files, const BookInHand& hand);
void read_readings(const std::vector<TableFile>& files, const BookInHand& hand);
void read_decisions(const std::vector<TableFile>& files, const BookInHand& hand);

// Whether any of a table's files has a column for the field; the note also lives from columns without a meaning.
inline bool someone_wrote(const std::vector<TableFile>& files, int field, int note_field) {
  return std::any_of(files.begin(), files.end(), [=](const TableFile& file) {
    return file.layout.has(field) || (field == note_field && !file.layout.notes.empty());
  });
}

// "did you mean 'P-12'?" among the instruments' names of a kind.
std::string instrument_hint(const Book& book, InstrumentKind kind, std::string_view written);

}  // namespace driftwarden

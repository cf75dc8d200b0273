// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <atomic>
#include <map>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "book/book_folder.hpp"
#include "book/file_manner.hpp"
#include "book/name_index.hpp"
#include "book/pieced_file.hpp"
#include "book/problem_list.hpp"
#include "book/row_blocks.hpp"
#include "book/row_reader.hpp"
#include "book/short_text.hpp"
#include "book/table_layout.hpp"

// How each kind of file becomes records: the specification of its columns, and a function.
namespace driftwarden {

// One file of a table, opened, with its heading line understood.
struct TableFile {
  std::string name;
  std::uint32_t number = 0;  // in the table's list of files
  PiecedFile bytes;
  TableLayout layout;
  FileManner manner;
  bool is_document = false;  // a digital calibration certificate: no rows, and no headings
};

// A book while it is read.
struct BookInHand {
  Book& book;
  ProblemList& problems;
  SharedTexts& texts;
  unsigned threads;
  // By table: the first fault by which some of its records may be lost without a trace, so that what names them, or
  // lacks them, is in doubt and not wrong. A file that can't be read at all, or rows inside a quote that never ends.
  std::map<std::string_view, ProblemNumber>& lost;
  const Advance& advance;
  const BookFolder& found;  // what was there before any of it was read
  Diagnostics& changes;     // faults of files that changed since

  void lose(std::string_view table, ProblemNumber problem) const {
    if (lost[table] == no_problem) lost[table] = problem;
  }

  RowContext context(const TableFile& file, const TableSpec& spec) const {
    const FileManner& manner = file.manner;
    return {file.layout,    spec,  file.name, *manner.zone,     manner.dates,
            manner.decimal, texts, problems,  lost[spec.table], book.settings.empty_marks};
  }
};

struct InstrumentNames {
  const std::vector<Instrument>* table;
  std::string_view operator()(Row row) const { return (*table)[row].name; }
};
using InstrumentIndex = NameIndex<InstrumentNames>;

InstrumentIndex index_of_instruments(const std::vector<Instrument>& instruments);

// The instrument that a cell names, of any kind; no_row where it is empty or (told with this id) unknown.
Row named_instrument(const InstrumentIndex& instruments, const BookInHand& hand, RowReader& row, int field,
                     const char* id);

// The instruments of a kind that rows name, mostly the same as the row before. One a thread.
class NamedInstrument {
 public:
  NamedInstrument(const InstrumentIndex& index, const BookInHand& hand, InstrumentKind kind)
      : index_(index), book_(hand.book), problems_(hand.problems), kind_(kind), lost_(hand.lost["instruments"]) {}

  // The instrument's row, or no_row where there is none of that name and kind; that is then told with this id.
  [[gnu::always_inline]] Row find(std::string_view name, RowReader& row, int field, const char* id) {
    if (!is_last(name)) last_ = look_up(name, row, field, id);
    return last_;
  }
  // Whether a name is that of the instrument that was found last.
  [[gnu::always_inline]] bool is_last(std::string_view name) const {
    return last_ != no_row && is_same_text(book_.instruments[last_].name, name);
  }
  Row last() const { return last_; }

 private:
  Row look_up(std::string_view name, RowReader& row, int field, const char* id) const;

  const InstrumentIndex& index_;
  const Book& book_;
  ProblemList& problems_;
  InstrumentKind kind_;
  ProblemNumber lost_;
  Row last_ = no_row;
};

// What the owner calls the columns of a table.
const HeadingMap& owners_headings(const Settings& settings, std::string_view table);

extern const TableSpec instruments_spec;
extern const TableSpec certificates_spec;
extern const TableSpec samples_spec;
extern const TableSpec readings_spec;
extern const TableSpec decisions_spec;
extern const TableSpec actions_spec;
extern const TableSpec service_spec;
extern const TableSpec checks_spec;
extern const TableSpec plan_spec;
extern const TableSpec received_spec;
extern const TableSpec kits_spec;
extern const TableSpec issues_spec;
extern const TableSpec results_spec;
extern const TableSpec pooled_spec;

void read_instruments(const std::vector<TableFile>& files, const BookInHand& hand);
void read_certificates(const std::vector<TableFile>& files, const BookInHand& hand);
void read_samples(const std::vector<TableFile>& files, const BookInHand& hand);
void read_readings(const std::vector<TableFile>& files, const BookInHand& hand);
void read_decisions(const std::vector<TableFile>& files, const BookInHand& hand);
void read_actions(const std::vector<TableFile>& files, const BookInHand& hand);
void read_service(const std::vector<TableFile>& files, const BookInHand& hand);
void read_checks(const std::vector<TableFile>& files, const BookInHand& hand);
void read_plan(const std::vector<TableFile>& files, const BookInHand& hand);
void read_received(const std::vector<TableFile>& files, const BookInHand& hand);
void read_kits(const std::vector<TableFile>& files, const BookInHand& hand);
void read_issues(const std::vector<TableFile>& files, const BookInHand& hand);
void read_results(const std::vector<TableFile>& files, const BookInHand& hand);
void read_pooled(const std::vector<TableFile>& files, const BookInHand& hand);

// The cells of a row that is added to a table which only grows, in the order of its columns.
std::vector<std::string> cells_of(const Decision& decision, const TimeZone& zone);
std::vector<std::string> cells_of(const Assignment& assignment, const TimeZone& zone);
std::vector<std::string> cells_of(const Receipt& receipt, const TimeZone& zone);

// Tells how far the reading of a table's files has come.
class TableProgress {
 public:
  TableProgress(const Advance& advance, std::string_view work, const std::vector<TableFile>& files)
      : advance_(advance), work_(work) {
    for (const TableFile& file : files) bytes_ += file.bytes.size();
  }
  void pass(std::size_t bytes) {
    if (advance_) advance_(work_, passed_ += bytes, bytes_);
  }

 private:
  const Advance& advance_;
  std::string_view work_;
  std::size_t bytes_ = 0;
  std::atomic<std::size_t> passed_{0};
};

// Whether any of a table's files has a column for the field; the note also lives from columns without a meaning.
inline bool someone_wrote(const std::vector<TableFile>& files, int field, int note_field) {
  return std::any_of(files.begin(), files.end(), [=](const TableFile& file) {
    return file.layout.has(field) || (field == note_field && !file.layout.notes.empty());
  });
}

// Room for the rows of a file that lack cells, and so are more than its bytes promised: for_columns(f) calls f for each
// column of the table.
template <class ForColumns>
void make_room(const TableFile& file, Row first_row, ForColumns for_columns) {
  const std::size_t more = rows_beyond_most(file.bytes, file.layout);
  if (more == 0) return;
  for_columns([=](auto& column) {
    if (column.capacity() == 0) return;
    column.set_size(first_row);
    column.reserve(column.capacity() + more);
  });
}

// Says in the hints of those problems which instrument may have been meant by an unknown name.
void hint_at_instruments(const Book& book, ProblemList& problems);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <mutex>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "driftwarden/book/csv_scanner.hpp"
#include "driftwarden/book/problem_list.hpp"
#include "driftwarden/book/table_layout.hpp"
#include "driftwarden/book/timestamp.hpp"
#include "driftwarden/record/moment.hpp"
#include "driftwarden/record/sample.hpp"
#include "driftwarden/record/text_pool.hpp"

namespace driftwarden {

// The book's texts, while several threads read it.
class SharedTexts {
 public:
  explicit SharedTexts(TextPool& pool) : pool_(pool) {}
  // The number of a text and where the pool keeps it.
  std::pair<TextId, std::string_view> intern(std::string_view text);

 private:
  std::mutex mutex_;
  TextPool& pool_;
};

// What reading any row of a file needs.
struct RowContext {
  const TableLayout& layout;
  const TableSpec& spec;
  const std::string& file;
  const TimeZone& zone;
  DateOrder dates;
  char decimal;
  SharedTexts& texts;
  ProblemList& problems;
  ProblemNumber& lost;  // the first fault by which rows of the table were lost, with all that stood in them
};

// Cells of one row after another, as figures, moments and words. A cell that can't be understood is reported with its
// place and read as missing; `problem()` then names the row's first fault. Where the row has not as many cells as the
// heading line, nobody knows which is which: that is told, and nothing of its cells. One reader belongs to one thread.
class RowReader {
 public:
  explicit RowReader(const RowContext& context);

  void start(const CsvScanner& row, std::uint32_t line);

  bool has(int field) const { return context_.layout.has(field); }
  std::string_view text(int field);
  double quantity(int field);  // in the inside unit of the heading's dimension; a plain number as written
  Moment moment(int field);
  Day date(int field);
  // Position of the cell among the words, or -1 where the cell is empty or is none of them (then reported).
  int word(int field, std::span<const std::string_view> words);
  YesNo yes_no(int field);
  TextId interned(int field);
  std::string note(int field);      // the note, with the cells of unknown columns behind it
  TextId interned_note(int field);  // the same

  ProblemNumber problem() const { return problem_; }
  // The row leans on a record with this problem, if it is one. Told already where that record stands.
  void lean_on(ProblemNumber problem) {
    if (problem_ == no_problem) problem_ = problem;
  }
  // Reports a fault of a cell; the row's problem is the first of its faults. Its number, or no_problem where nothing is
  // told of the row's cells.
  ProblemNumber fail(int field, std::string id, std::string message, std::string hint);
  // Remarks on a cell; the row stands.
  void doubt(int field, std::string id, std::string message, std::string hint);
  Place place_of(int field) const;

 private:
  std::string_view cell(int field);
  const Cell* raw_cell(int field) const;
  ProblemNumber fail_at(Place place, std::string id, std::string message, std::string hint);
  void check_shape();
  bool is_in_file(std::string_view text) const;
  double quantity_from(int field, std::string_view written);
  void fail_number(int field, std::string_view written);
  TextId intern(std::string_view text);

  RowContext context_;
  StampReader stamps_;
  const CsvScanner* row_ = nullptr;
  std::uint32_t line_ = 0;
  ProblemNumber problem_ = no_problem;
  bool is_misshapen_ = false;
  std::unordered_map<std::string_view, TextId> known_texts_;
  struct LastText {
    std::string_view text;
    TextId id = 0;
  };
  std::vector<LastText> last_text_;  // by field: the same text often comes again at once
};

}  // namespace driftwarden

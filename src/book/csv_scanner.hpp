// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// A cell of a CSV row. `text` is without quotes; `raw` is where the cell begins in the file.
struct Cell {
  std::string_view text;
  const char* raw = nullptr;
};

enum class CsvFault : std::uint8_t { none, open_quote, text_after_quote };

// Splits CSV text (RFC 4180: quoted cells may hold separators, doubled quotes and line ends; LF or CRLF) into rows and
// cells. Nothing is allocated per cell. A quote inside a cell that does not begin with one is an ordinary character.
// 64 bytes after the text must be readable.
class CsvScanner {
 public:
  CsvScanner() = default;  // of no text
  CsvScanner(std::string_view text, char separator)
      : next_(text.data()), end_(text.data() + text.size()), separator_(separator) {}

  // Goes to behind the row of another scanner, in its text.
  void go_on_behind(const CsvScanner& other) {
    next_ = other.next_;
    end_ = other.end_;
    separator_ = other.separator_;
  }
  // The next row; false at the end. The cells stay valid until the next call.
  bool next();

  std::size_t cell_count() const { return count_; }
  const Cell* cells() const { return cells_.data(); }
  const char* row_begin() const { return begin_; }
  const char* row_end() const { return row_end_; }            // without the line end
  const char* position() const { return next_; }              // behind the line end
  std::uint32_t extra_lines() const { return extra_lines_; }  // line ends inside the row's quoted cells
  CsvFault fault() const { return fault_; }
  // Whether the text of some cell is a copy, without its doubled quotes, and not the file's own bytes.
  bool has_copies() const { return has_copies_; }
  const char* fault_at() const { return fault_at_; }
  // Nothing but separators, as spreadsheets write them behind their last row.
  bool is_blank() const { return static_cast<std::size_t>(row_end_ - begin_) + 1 == count_; }

 private:
  void add(const char* from, const char* to) {
    if (count_ == cells_.size()) cells_.resize(2 * count_ + 16);
    cells_[count_++] = {{from, static_cast<std::size_t>(to - from)}, from};
  }
  void finish_row(const char* cell, const char* line_end);
  void next_with_quotes();
  const char* quoted_cell(const char* quote);

  const char* next_ = nullptr;
  const char* end_ = nullptr;
  char separator_ = ',';
  const char* begin_ = nullptr;
  const char* row_end_ = nullptr;
  std::vector<Cell> cells_;
  std::size_t count_ = 0;
  std::deque<std::string> unescaped_;  // texts of this row's cells with doubled quotes
  std::uint32_t extra_lines_ = 0;
  bool has_copies_ = false;
  CsvFault fault_ = CsvFault::none;
  const char* fault_at_ = nullptr;
};

// Moves a place on over the bytes from one of a row to a later one.
void move_on(Place& place, const char* from, const char* to);

// Line and column of a byte of a row that begins on a line; quoted cells before it may hold line ends.
Place place_in_row(const CsvScanner& row, const char* at, const std::string& file, std::uint32_t line);

// What to tell of a row with a fault: csv/open-quote or csv/text-after-quote.
Diagnostic csv_fault(const CsvScanner& row, const std::string& file, std::uint32_t line);

// The number of line ends in a text, fast.
std::size_t count_line_ends(std::string_view text);

}  // namespace driftwarden

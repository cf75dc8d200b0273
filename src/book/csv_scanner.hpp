// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

enum class CsvFault : std::uint8_t { none, open_quote, text_after_quote };

// Splits CSV text (RFC 4180: quoted cells may hold separators, doubled quotes and line ends; LF or CRLF) into rows and
// cells. Nothing is allocated per cell. A quote inside a cell that does not begin with one is an ordinary character.
// 64 bytes after the text must be readable.
//
// How: the separators of 64 bytes at a time are the bits of a word. A row whose words are those of the row above has
// its cells at the same places, so they are not looked for again, and one comparison of all bytes tells which of them
// are the same as above, as most cells of a table of readings are.
class CsvScanner {
 public:
  CsvScanner() = default;  // of no text
  CsvScanner(std::string_view text, char separator)
      : next_(text.data()), end_(text.data() + text.size()), separator_(separator) {}

  // Goes to behind the row of another scanner, in its text.
  void go_on_behind(const CsvScanner& other);
  // The next row; false at the end. The cells stay valid until the next call.
  bool next();

  std::size_t cell_count() const { return count_; }
  // Of a cell, without its quotes.
  [[gnu::always_inline]] std::string_view text(std::size_t column) const {
    if (has_quotes_) return quoted_[column].text;
    const std::size_t begin = begin_of(column);
    return {begin_ + begin, ends_[column] - begin};
  }
  // Where a cell begins in the file, at its quote if it has one.
  const char* raw(std::size_t column) const { return has_quotes_ ? quoted_[column].raw : begin_ + begin_of(column); }
  // Whether a cell surely is the same as that of the row above, byte for byte. The row above is the one that was
  // scanned before.
  [[gnu::always_inline]] bool repeats(std::size_t column) const {
    if (!is_laid_out_as_above_) return false;
    const std::uint32_t end = ends_[column];
    return (changed_[end / 64] >> (end % 64) & 1U) == 0;
  }
  const char* row_begin() const { return begin_; }
  const char* position() const { return next_; }              // behind the line end
  std::uint32_t extra_lines() const { return extra_lines_; }  // line ends inside the row's quoted cells
  CsvFault fault() const { return fault_; }
  // Whether the text of some cell is a copy, without its doubled quotes, and not the file's own bytes.
  bool has_copies() const { return has_copies_; }
  const char* fault_at() const { return fault_at_; }
  // Nothing but separators, as spreadsheets write them behind their last row.
  bool is_blank() const { return static_cast<std::size_t>(row_end_ - begin_) + 1 == count_; }

 private:
  static constexpr std::size_t words = 4;  // of the longest row that is compared with the one above: 256 bytes
  struct QuotedCell {
    std::string_view text;
    const char* raw = nullptr;
  };

  [[gnu::always_inline]] std::size_t begin_of(std::size_t column) const {
    return column == 0 ? 0 : ends_[column - 1] + std::size_t{1};
  }
  void finish_row(const char* line_end, std::size_t words_here);
  void lay_out(const char* line_end, std::size_t words_here);
  void compare_with_above(std::size_t words_here);
  void add_quoted(const char* from, const char* to) {
    quoted_.push_back({{from, static_cast<std::size_t>(to - from)}, from});
  }
  void next_with_quotes();
  const char* quoted_cell(const char* quote);

  const char* next_ = nullptr;
  const char* end_ = nullptr;
  char separator_ = ',';
  const char* begin_ = nullptr;
  const char* row_end_ = nullptr;
  std::size_t count_ = 0;
  std::vector<std::uint32_t> ends_;  // of the cells, from the row's begin
  std::size_t words_of_row_ = 0;
  std::array<std::uint64_t, words> marks_{};    // where separators and the line end stand in the row
  std::array<std::uint64_t, words> changed_{};  // those of them whose cells are not the ones above
  const char* above_ = nullptr;                 // the row above; nullptr where there is none, or one with quotes
  bool is_laid_out_as_above_ = false;
  bool has_quotes_ = false;
  std::vector<QuotedCell> quoted_;     // the cells of a row with quotes
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

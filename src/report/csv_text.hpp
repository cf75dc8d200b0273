// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "report/shortest_figure.hpp"

namespace driftwarden {

// Appends a text as a CSV cell (RFC 4180): in quotes, doubled inside, only where it needs them.
void append_csv(std::string& out, std::string_view text);

// The same for a CSV that people open in a spreadsheet: what that would run as a formula has an apostrophe before it
// and stays text.
void append_csv_for_people(std::string& out, std::string_view text);

// A row that is put together cell by cell, and appended to a text as it goes out of scope.
class CsvRow {
 public:
  explicit CsvRow(std::string& out) : out_(out) {}
  CsvRow(const CsvRow&) = delete;
  CsvRow& operator=(const CsvRow&) = delete;
  ~CsvRow() {
    *end_++ = '\n';
    pass_on();
  }

  // Each is a further cell.
  void text(std::string_view cell);  // in quotes where it needs them
  void figure(double value) { end_ = put_figure(begin_cell(), value); }
  void count(std::size_t value);
  void none() { end_ = begin_cell(); }
  void plain(std::string_view cells) {  // that need no quotes, or have them
    char* const at = begin_cell(cells.size());
    if (cells.size() > longest_cell) return out_.append(cells), void();
    end_ = at + cells.copy(at, cells.size());
  }

 private:
  static constexpr std::size_t longest_cell = 200;  // of those that are kept back

  // Puts the comma before a cell, and makes room for it and for the row's end; all is passed on before a longer one.
  char* begin_cell(std::size_t size = longest_figure) {
    if (!is_first_) *end_++ = ',';
    is_first_ = false;
    if (size > longest_cell || text_.data() + text_.size() - end_ < static_cast<std::ptrdiff_t>(longest_cell + 2))
      pass_on();
    return end_;
  }
  void pass_on() {
    out_.append(text_.data(), end_);
    end_ = text_.data();
  }

  std::string& out_;
  std::array<char, 1024> text_;
  char* end_ = text_.data();
  bool is_first_ = true;
};

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "book/csv_scanner.hpp"

namespace driftwarden {

// The rows of a text, scanned a few ahead of the one that is read, so that memory they will need can be asked for.
class RowsAhead {
 public:
  static constexpr std::size_t most = 16;

  // Each row that begins before `end`, until take(row) says no; worker.expect(row) is told of it as soon as it is
  // scanned.
  template <class Worker, class Take>
  void read(std::string_view text, char separator, const char* end, Worker& worker, Take take) {
    start(text, separator, end);
    const auto expect = [&worker](const CsvScanner& row) { worker.expect(row); };
    for (const CsvScanner* row; (row = next(expect)) != nullptr && take(*row);) {
    }
  }

  // From the row that the text begins with to the last that begins before `end`.
  void start(std::string_view text, char separator, const char* end) {
    end_ = end;
    scanned_ = read_ = 0;
    last() = CsvScanner(text, separator);
  }

  // The next row, valid until the next call; nullptr behind the last. expect(row) is told of each row once, as soon as
  // it is scanned.
  template <class Expect>
  const CsvScanner* next(Expect expect) {
    while (scanned_ - read_ < most - 1 && last().position() < end_) {
      CsvScanner& row = rows_[scanned_ % most];
      row.go_on_behind(last());
      if (!row.next()) break;
      ++scanned_;
      expect(row);
    }
    return read_ == scanned_ ? nullptr : &rows_[read_++ % most];
  }

 private:
  CsvScanner& last() { return rows_[(scanned_ + most - 1) % most]; }

  std::array<CsvScanner, most> rows_;
  const char* end_ = nullptr;
  std::size_t scanned_ = 0;
  std::size_t read_ = 0;
};

}  // namespace driftwarden

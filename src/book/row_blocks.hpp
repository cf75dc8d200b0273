// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <atomic>
#include <exception>
#include <memory>
#include <mutex>
#include <vector>

#include "book/csv_scanner.hpp"
#include "book/pieced_file.hpp"
#include "book/rows_ahead.hpp"
#include "book/table_layout.hpp"
#include "record/row_places.hpp"
#include "system/in_parallel.hpp"

namespace driftwarden {

// The rows of one CSV file, shared out between threads in blocks of bytes, the pieces of its print. A row belongs to
// the block in which it begins. Each block's rows are counted first, so that every row knows its number in the table
// and can be written straight to its place, whatever the number of threads.
class RowBlocks {
 public:
  RowBlocks(std::size_t rows_begin, std::size_t size, std::size_t block_bytes = print_piece);

  std::size_t count() const { return base_.size(); }
  std::size_t piece(std::size_t block) const { return first_piece_ + block; }
  std::size_t begin(std::size_t block) const { return std::max(rows_begin_, piece(block) * block_bytes_); }
  std::size_t end(std::size_t block) const { return std::min((piece(block) + 1) * block_bytes_, size_); }
  std::size_t block_bytes() const { return block_bytes_; }
  // How many rows lie before this block; waits for the block before. To be called for each once, in any order, with the
  // number of rows that begin in it.
  std::size_t rows_before(std::size_t block, std::size_t rows_here);
  std::size_t rows() const { return rows_; }

 private:
  std::size_t rows_begin_;
  std::size_t size_;
  std::size_t block_bytes_;
  std::size_t first_piece_;
  std::vector<std::atomic<std::size_t>> base_;  // rows before the block, plus 1; 0: not known yet
  std::atomic<std::size_t> rows_{0};
};

// The text of one block after another, with the whole of its last row. One a thread.
class BlockText {
 public:
  BlockText(const PiecedFile& file, const RowBlocks& blocks) : file_(file), blocks_(blocks), window_(file) {}

  void read(std::size_t block);
  std::size_t rows() const;                 // that begin in it
  std::string_view from_first_row() const;  // on to behind the last row
  const char* end() const { return at(blocks_.end(block_)); }

 private:
  const char* at(std::size_t place) const { return text_.data() + (place - begin_); }

  const PiecedFile& file_;
  const RowBlocks& blocks_;
  PiecedFile::Window window_;
  std::size_t block_ = 0;
  std::size_t begin_ = 0;  // where the text begins in the file
  std::string_view text_;
};

// Most rows a file can have if each is whole: with a separator or line end for each column.
std::size_t most_rows(const PiecedFile& file, const TableLayout& layout);
// And how many more there may be where rows lack cells.
std::size_t rows_beyond_most(const PiecedFile& file, const TableLayout& layout);

// Whether a row is one of the table: not blank, and not to be ignored.
bool is_of_table(const CsvScanner& row, std::uint32_t line, const TableLayout& layout);

// Calls worker(scanner, row, line) for each row of the file, with row numbers from `first_row` on, in as many threads
// as there are workers; true when done. False, early, when the file has rows of several lines or blank lines, so that
// rows and lines can't be numbered by counting line ends, or more than most_rows, or when some are to be ignored: then
// read_rows_in_order is to be used from the start. passed(bytes) is told of each block, by the thread that read it. A
// worker's texts are gone when its next block is read; one that keeps any forgets them in begin_block(). One that
// looks_ahead() in a block is told of each row of it a few rows before, by expect(scanner). What a worker throws ends
// the reading and is thrown on.
template <class Worker, class Passed>
bool read_rows_in_blocks(const PiecedFile& file, const TableLayout& layout, Row first_row,
                         std::vector<std::unique_ptr<Worker>>& workers, std::size_t& rows, Passed passed,
                         std::size_t block_bytes = print_piece) {
  if (!layout.ignored.empty()) return false;
  RowBlocks blocks(layout.rows_begin, file.size(), block_bytes);
  const std::size_t most = most_rows(file, layout);
  std::atomic<std::size_t> next{0};
  std::atomic<bool> is_irregular{false};
  std::exception_ptr failure;
  std::mutex mutex;
  const auto read_block = [&](Worker& worker, RowsAhead& ahead, const BlockText& text, Row row) {
    if constexpr (requires { worker.begin_block(); }) worker.begin_block();
    const auto take = [&](const CsvScanner& scanned) {
      if (scanned.extra_lines() > 0 || scanned.fault() != CsvFault::none || scanned.is_blank() || row >= most) {
        is_irregular = true;
        return false;
      }
      worker(scanned, first_row + row, layout.first_line + row);
      ++row;
      return true;
    };
    if constexpr (requires { worker.looks_ahead(); }) {
      if (worker.looks_ahead()) return ahead.read(text.from_first_row(), layout.separator, text.end(), worker, take);
    }
    CsvScanner scanner(text.from_first_row(), layout.separator);
    while (scanner.position() < text.end() && scanner.next() && take(scanner)) {
    }
  };
  const auto fail = [&] {
    const std::scoped_lock lock(mutex);
    if (!failure) failure = std::current_exception();
    is_irregular = true;
  };
  // Every block is counted, also when nothing more is to be read: others wait for its number.
  const auto rows_in = [&](BlockText& text, std::size_t b) -> std::size_t {
    try {
      text.read(b);
      return text.rows();
    } catch (...) {
      return fail(), 0;
    }
  };
  const auto work = [&](Worker& worker) {
    try {
      BlockText text(file, blocks);
      RowsAhead ahead;
      for (std::size_t b; (b = next.fetch_add(1)) < blocks.count();) {
        const auto row = static_cast<Row>(blocks.rows_before(b, rows_in(text, b)));
        if (is_irregular) continue;
        read_block(worker, ahead, text, row);
        passed(blocks.end(b) - blocks.begin(b));
      }
    } catch (...) {
      fail();
    }
  };
  if (!workers.empty()) {
    in_parallel(std::min(workers.size(), blocks.count()), [&](std::size_t number) { work(*workers[number]); });
  }
  if (failure) std::rethrow_exception(failure);
  rows = blocks.rows();
  return !is_irregular;
}

// The same, one row after the other. Lines are told to `places` as they jump; blank lines are passed over.
template <class Worker>
std::size_t read_rows_in_order(const PiecedFile& file, const TableLayout& layout, std::uint32_t file_number,
                               Row first_row, Worker& worker, RowPlaces& places) {
  CsvScanner scanner(file.bytes().substr(layout.rows_begin), layout.separator);
  std::uint32_t line = layout.first_line;
  Row row = first_row;
  while (scanner.next()) {
    if (is_of_table(scanner, line, layout)) {
      places.start(row, {file_number, line});
      worker(scanner, row, line);
      ++row;
    }
    line += 1 + (layout.is_of_sheet ? 0 : scanner.extra_lines());
  }
  return row - first_row;
}

// The same of a table's file, where nobody asks for the places of its rows afterwards.
template <class File, class Worker>
void read_rows_in_order(const File& file, Worker&& worker) {
  RowPlaces unused;
  read_rows_in_order(file.bytes, file.layout, 0, 0, worker, unused);
}

}  // namespace driftwarden

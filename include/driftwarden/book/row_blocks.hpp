// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <atomic>
#include <memory>
#include <thread>
#include <vector>

#include "driftwarden/book/csv_scanner.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/book/table_layout.hpp"
#include "driftwarden/record/row_places.hpp"

namespace driftwarden {

// The rows of one CSV file, shared out between threads in blocks of bytes. A row belongs to the block in which it
// begins. Each block's rows are counted first, so that every row knows its number in the table and can be written
// straight to its place, whatever the number of threads.
class RowBlocks {
 public:
  static constexpr std::size_t usual_bytes = std::size_t{1} << 20;

  RowBlocks(const MappedFile& file, const TableLayout& layout, std::size_t block_bytes = usual_bytes);

  std::size_t count() const { return base_.size(); }
  std::size_t begin(std::size_t block) const;
  std::size_t end(std::size_t block) const;
  // Counts the rows of a block, which must be called for the blocks in any order but once each, and waits for the block
  // before; returns how many rows lie before this block.
  std::size_t rows_before(std::size_t block);
  std::size_t rows() const { return rows_; }
  // Where the first row of a block begins, or the block's end if none does.
  std::size_t first_row(std::size_t block) const;

 private:
  std::size_t rows_in(std::size_t block) const;

  const MappedFile& file_;
  std::size_t from_;
  std::size_t block_bytes_;
  std::vector<std::atomic<std::size_t>> base_;  // rows before the block, plus 1; 0: not known yet
  std::atomic<std::size_t> rows_{0};
};

// Most rows a file can have if each is whole: with a separator or line end for each column.
std::size_t most_rows(const MappedFile& file, const TableLayout& layout);
// And how many more there may be where rows lack cells.
std::size_t rows_beyond_most(const MappedFile& file, const TableLayout& layout);

// Calls worker(scanner, row, line) for each row of the file, with row numbers from `first_row` on, in as many threads
// as there are workers; true when done. False, early, when the file has rows of several lines or blank lines, so that
// rows and lines can't be numbered by counting line ends, or more than most_rows: then read_rows_in_order is to be used
// from the start. passed(bytes) is told of each block, by the thread that read it.
template <class Worker, class Passed>
bool read_rows_in_blocks(const MappedFile& file, const TableLayout& layout, Row first_row,
                         std::vector<std::unique_ptr<Worker>>& workers, std::size_t& rows, Passed passed,
                         std::size_t block_bytes = RowBlocks::usual_bytes) {
  RowBlocks blocks(file, layout, block_bytes);
  const std::size_t most = most_rows(file, layout);
  std::atomic<std::size_t> next{0};
  std::atomic<bool> is_irregular{false};
  const auto work = [&](Worker& worker) {
    for (std::size_t b; (b = next.fetch_add(1)) < blocks.count();) {
      file.want(blocks.begin(b), blocks.end(b));
      auto row = static_cast<Row>(blocks.rows_before(b));
      if (is_irregular) continue;
      CsvScanner scanner(file.bytes().substr(blocks.first_row(b)), layout.separator);
      const char* const end = file.bytes().data() + blocks.end(b);
      while (scanner.position() < end && scanner.next()) {
        if (scanner.extra_lines() > 0 || scanner.fault() != CsvFault::none || scanner.is_blank() || row >= most) {
          is_irregular = true;
          break;
        }
        worker(scanner, first_row + row, layout.first_line + row);
        ++row;
      }
      file.leave(blocks.begin(b), blocks.end(b));
      passed(blocks.end(b) - blocks.begin(b));
    }
  };
  std::vector<std::jthread> threads;
  const std::size_t useful = std::min(workers.size(), blocks.count());
  for (std::size_t t = 1; t < useful; ++t) threads.emplace_back([&work, &workers, t] { work(*workers[t]); });
  if (!workers.empty()) work(*workers[0]);
  threads.clear();
  rows = blocks.rows();
  return !is_irregular;
}

// The same, one row after the other. Lines are told to `places` as they jump; blank lines are passed over.
template <class Worker>
std::size_t read_rows_in_order(const MappedFile& file, const TableLayout& layout, std::uint32_t file_number,
                               Row first_row, Worker& worker, RowPlaces& places) {
  CsvScanner scanner(file.bytes().substr(layout.rows_begin), layout.separator);
  std::uint32_t line = layout.first_line;
  Row row = first_row;
  while (scanner.next()) {
    if (!scanner.is_blank()) {
      places.start(row, {file_number, line});
      worker(scanner, row, line);
      ++row;
    }
    line += 1 + scanner.extra_lines();
  }
  return row - first_row;
}

}  // namespace driftwarden

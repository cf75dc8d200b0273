// SPDX-License-Identifier: MIT
#include "driftwarden/book/row_blocks.hpp"

#include <cstring>

namespace driftwarden {

RowBlocks::RowBlocks(const MappedFile& file, const TableLayout& layout, std::size_t block_bytes)
    : file_(file),
      from_(layout.rows_begin),
      block_bytes_(block_bytes),
      base_((file.bytes().size() - from_ + block_bytes - 1) / block_bytes) {
  if (!base_.empty()) base_[0] = 1;
}

std::size_t RowBlocks::begin(std::size_t block) const { return from_ + block * block_bytes_; }

std::size_t RowBlocks::end(std::size_t block) const {
  return std::min(begin(block) + block_bytes_, file_.bytes().size());
}

std::size_t RowBlocks::rows_in(std::size_t block) const {
  // A row begins behind each line end but one that closes the file; the file's first row begins behind the headings.
  const std::size_t from = begin(block);
  const std::size_t to = end(block);
  if (block == 0) return 1 + count_line_ends(file_.bytes().substr(from, to - from - 1));
  return count_line_ends(file_.bytes().substr(from - 1, to - from));
}

std::size_t RowBlocks::rows_before(std::size_t block) {
  const std::size_t here = rows_in(block);
  std::size_t before = base_[block].load(std::memory_order_acquire);
  while (before == 0) {
    std::this_thread::yield();
    before = base_[block].load(std::memory_order_acquire);
  }
  if (block + 1 < base_.size()) base_[block + 1].store(before + here, std::memory_order_release);
  rows_ += here;
  return before - 1;
}

std::size_t RowBlocks::first_row(std::size_t block) const {
  if (block == 0) return from_;
  const char* const text = file_.bytes().data();
  const std::size_t from = begin(block) - 1;
  const void* line_end = std::memchr(text + from, '\n', end(block) - from);
  return line_end == nullptr ? end(block) : static_cast<std::size_t>(static_cast<const char*>(line_end) - text) + 1;
}

std::size_t most_rows(const MappedFile& file, const TableLayout& layout) {
  return (file.bytes().size() - layout.rows_begin) / std::max<std::size_t>(layout.columns, 1) + 1;
}

std::size_t rows_beyond_most(const MappedFile& file, const TableLayout& layout) {
  const std::size_t lines = 1 + count_line_ends(file.bytes().substr(layout.rows_begin));
  const std::size_t most = most_rows(file, layout);
  return lines > most ? lines - most : 0;
}

}  // namespace driftwarden

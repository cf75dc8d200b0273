// SPDX-License-Identifier: MIT
#include "book/row_blocks.hpp"

#include <cstring>
#include <thread>

#include "book/plain_text.hpp"

namespace driftwarden {

RowBlocks::RowBlocks(std::size_t rows_begin, std::size_t size, std::size_t block_bytes)
    : rows_begin_(rows_begin),
      size_(size),
      block_bytes_(block_bytes),
      first_piece_(rows_begin / block_bytes),
      base_(size > rows_begin ? (size + block_bytes - 1) / block_bytes - first_piece_ : 0) {
  if (!base_.empty()) base_[0] = 1;
}

std::size_t RowBlocks::rows_before(std::size_t block, std::size_t rows_here) {
  std::size_t before = base_[block].load(std::memory_order_acquire);
  while (before == 0) {
    std::this_thread::yield();
    before = base_[block].load(std::memory_order_acquire);
  }
  if (block + 1 < base_.size()) base_[block + 1].store(before + rows_here, std::memory_order_release);
  rows_ += rows_here;
  return before - 1;
}

// From the byte before the block, which may be the line end behind which a row begins; the file's first block with all
// that stands in its piece before the rows.
void BlockText::read(std::size_t block) {
  block_ = block;
  const std::size_t piece_begin = blocks_.piece(block) * blocks_.block_bytes();
  begin_ = block == 0 ? piece_begin : piece_begin - 1;
  text_ = window_.read(begin_, blocks_.end(block));
  file_.note(blocks_.piece(block), {at(piece_begin), blocks_.end(block) - piece_begin});
}

// A row begins behind each line end but one that closes the file; the file's first row begins behind the headings.
std::size_t BlockText::rows() const {
  const std::size_t to = blocks_.end(block_) - 1;
  const std::size_t from = block_ == 0 ? blocks_.begin(0) : blocks_.begin(block_) - 1;
  return (block_ == 0 ? 1 : 0) + count_line_ends({at(from), to - from});
}

std::string_view BlockText::from_first_row() const {
  const char* first = at(blocks_.begin(block_));
  if (block_ > 0) {
    const char* const from = first - 1;
    const void* line_end = std::memchr(from, '\n', static_cast<std::size_t>(end() - from));
    first = line_end == nullptr ? end() : static_cast<const char*>(line_end) + 1;
  }
  return {first, static_cast<std::size_t>(text_.data() + text_.size() - first)};
}

bool is_of_table(const CsvScanner& row, std::uint32_t line, const TableLayout& layout) {
  if (row.is_blank()) return false;
  if (layout.ignored.empty()) return true;
  std::string_view first;
  for (std::size_t c = 0; c < row.cell_count() && first.empty(); ++c) first = trimmed(row.text(c));
  return !layout.ignored.hold(line, first);
}

std::size_t most_rows(const PiecedFile& file, const TableLayout& layout) {
  return (file.size() - layout.rows_begin) / std::max<std::size_t>(layout.columns, 1) + 1;
}

std::size_t rows_beyond_most(const PiecedFile& file, const TableLayout& layout) {
  const std::size_t lines = 1 + count_line_ends(file.bytes().substr(layout.rows_begin));
  const std::size_t most = most_rows(file, layout);
  return lines > most ? lines - most : 0;
}

}  // namespace driftwarden

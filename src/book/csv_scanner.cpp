// SPDX-License-Identifier: MIT
#include "driftwarden/book/csv_scanner.hpp"

#include <bit>
#include <utility>

#ifdef __SSE2__
#include <emmintrin.h>
#endif

namespace driftwarden {
namespace {

// A bit for each of 64 bytes that is a separator, a line end or a quote.
#ifdef __SSE2__
std::uint64_t marks_in_64(const char* p, char separator) {
  const __m128i s = _mm_set1_epi8(separator);
  const __m128i n = _mm_set1_epi8('\n');
  const __m128i q = _mm_set1_epi8('"');
  std::uint64_t marks = 0;
  for (unsigned k = 0; k < 4; ++k) {
    const __m128i v = _mm_loadu_si128(reinterpret_cast<const __m128i*>(p + 16 * k));
    const __m128i hit = _mm_or_si128(_mm_or_si128(_mm_cmpeq_epi8(v, s), _mm_cmpeq_epi8(v, n)), _mm_cmpeq_epi8(v, q));
    marks |= std::uint64_t{static_cast<std::uint32_t>(_mm_movemask_epi8(hit))} << (16 * k);
  }
  return marks;
}
#else
std::uint64_t marks_in_64(const char* p, char separator) {
  std::uint64_t marks = 0;
  for (unsigned k = 0; k < 64; ++k) {
    marks |= std::uint64_t{p[k] == separator || p[k] == '\n' || p[k] == '"'} << k;
  }
  return marks;
}
#endif

}  // namespace

std::size_t count_line_ends(std::string_view text) {
  const char* p = text.data();
  const char* const end = p + text.size();
  std::size_t count = 0;
#ifdef __SSE2__
  const __m128i n = _mm_set1_epi8('\n');
  for (; end - p >= 64; p += 64) {
    std::uint64_t hits = 0;
    for (unsigned k = 0; k < 4; ++k) {
      const __m128i v = _mm_loadu_si128(reinterpret_cast<const __m128i*>(p + 16 * k));
      hits |= std::uint64_t{static_cast<std::uint32_t>(_mm_movemask_epi8(_mm_cmpeq_epi8(v, n)))} << (16 * k);
    }
    count += static_cast<std::size_t>(std::popcount(hits));
  }
#endif
  for (; p != end; ++p) count += *p == '\n' ? 1U : 0U;
  return count;
}

Place place_in_row(const CsvScanner& row, const char* at, const std::string& file, std::uint32_t line) {
  Place place{file, line, 1};
  for (const char* p = row.row_begin(); p < at; ++p) {
    if (*p == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((static_cast<unsigned char>(*p) & 0xC0U) != 0x80U) {
      ++place.column;
    }
  }
  return place;
}

Diagnostic csv_fault(const CsvScanner& row, const std::string& file, std::uint32_t line) {
  Place place = place_in_row(row, row.fault_at(), file, line);
  if (row.fault() == CsvFault::open_quote) {
    return error("csv/open-quote", std::move(place), "the quoted cell that begins here never ends",
                 "close it with a quote, and double the quotes inside it");
  }
  return error("csv/text-after-quote", std::move(place), "text stands between a closing quote and the separator",
               "double the quotes inside a quoted cell");
}

bool CsvScanner::next() {
  if (next_ >= end_) return false;
  begin_ = next_;
  count_ = 0;
  extra_lines_ = 0;
  fault_ = CsvFault::none;
  const char* cell = begin_;
  for (const char* block = begin_; block < end_; block += 64) {
    for (std::uint64_t marks = marks_in_64(block, separator_); marks != 0; marks &= marks - 1) {
      const char* const at = block + std::countr_zero(marks);
      if (at >= end_) break;
      if (*at == separator_) {
        add(cell, at);
        cell = at + 1;
      } else if (*at == '\n') {
        finish_row(cell, at);
        return true;
      } else if (at == cell) {
        next_with_quotes();
        return true;
      }
    }
  }
  finish_row(cell, end_);
  return true;
}

void CsvScanner::finish_row(const char* cell, const char* line_end) {
  next_ = line_end < end_ ? line_end + 1 : end_;
  row_end_ = line_end > cell && line_end[-1] == '\r' ? line_end - 1 : line_end;
  add(cell, row_end_);
}

// The same row again from its beginning, now minding quotes.
void CsvScanner::next_with_quotes() {
  count_ = 0;
  unescaped_.clear();
  const char* cell = begin_;
  for (;;) {
    const char* at = cell;
    if (at < end_ && *at == '"') {
      at = quoted_cell(at);
      if (fault_ == CsvFault::none && at < end_ && *at == '\r' && (at + 1 == end_ || at[1] == '\n')) ++at;
      if (fault_ == CsvFault::none && at < end_ && *at != separator_ && *at != '\n') {
        fault_ = CsvFault::text_after_quote;
        fault_at_ = at;
      }
      while (at < end_ && *at != separator_ && *at != '\n') ++at;
    } else {
      while (at < end_ && *at != separator_ && *at != '\n') ++at;
      const bool carriage_return = at > cell && at[-1] == '\r' && (at == end_ || *at == '\n');
      add(cell, carriage_return ? at - 1 : at);
    }
    if (at >= end_ || *at == '\n') {
      next_ = at < end_ ? at + 1 : end_;
      row_end_ = at > begin_ && at[-1] == '\r' ? at - 1 : at;
      return;
    }
    cell = at + 1;
  }
}

// Adds the quoted cell that begins at a quote; behind its closing quote.
const char* CsvScanner::quoted_cell(const char* quote) {
  const char* const from = quote + 1;
  const char* to = from;
  bool has_doubled = false;
  for (; to < end_; ++to) {
    if (*to == '\n') ++extra_lines_;
    if (*to != '"') continue;
    if (to + 1 >= end_ || to[1] != '"') break;
    has_doubled = true;
    ++to;
  }
  if (to >= end_) {
    fault_ = CsvFault::open_quote;
    fault_at_ = quote;
  }
  add(from, to);
  cells_[count_ - 1].raw = quote;
  if (has_doubled) {
    std::string& text = unescaped_.emplace_back();
    for (const char* p = from; p < to; ++p) {
      text += *p;
      if (*p == '"') ++p;
    }
    cells_[count_ - 1].text = text;
  }
  return to < end_ ? to + 1 : end_;
}

}  // namespace driftwarden

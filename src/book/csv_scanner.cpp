// SPDX-License-Identifier: MIT
#include "book/csv_scanner.hpp"

#include <algorithm>
#include <bit>
#include <utility>

#ifdef __SSE2__
#include <emmintrin.h>
#endif

namespace driftwarden {
namespace {

// A bit for each of 64 bytes: those that are a separator, and those that are a line end or a quote.
struct Marks {
  std::uint64_t separators = 0;
  std::uint64_t stops = 0;
};

#ifdef __SSE2__
Marks marks_in_64(const char* p, char separator) {
  const __m128i s = _mm_set1_epi8(separator);
  const __m128i n = _mm_set1_epi8('\n');
  const __m128i q = _mm_set1_epi8('"');
  const auto bits = [](__m128i hit, unsigned k) {
    return std::uint64_t{static_cast<std::uint32_t>(_mm_movemask_epi8(hit))} << (16 * k);
  };
  Marks marks;
  for (unsigned k = 0; k < 4; ++k) {
    const __m128i v = _mm_loadu_si128(reinterpret_cast<const __m128i*>(p + std::size_t{16} * k));
    marks.separators |= bits(_mm_cmpeq_epi8(v, s), k);
    marks.stops |= bits(_mm_or_si128(_mm_cmpeq_epi8(v, n), _mm_cmpeq_epi8(v, q)), k);
  }
  return marks;
}
#else
Marks marks_in_64(const char* p, char separator) {
  Marks marks;
  for (unsigned k = 0; k < 64; ++k) {
    marks.separators |= std::uint64_t{p[k] == separator} << k;
    marks.stops |= std::uint64_t{p[k] == '\n' || p[k] == '"'} << k;
  }
  return marks;
}
#endif

#ifdef __SSE2__
// The line ends in a whole number of stretches of 16 bytes, at most 255: each byte of the sum counts its own column.
std::size_t line_ends_in_columns(const char* p, std::size_t stretches) {
  const __m128i n = _mm_set1_epi8('\n');
  __m128i columns = _mm_setzero_si128();
  for (std::size_t k = 0; k < stretches; ++k) {
    const __m128i v = _mm_loadu_si128(reinterpret_cast<const __m128i*>(p + 16 * k));
    columns = _mm_sub_epi8(columns, _mm_cmpeq_epi8(v, n));
  }
  const __m128i halves = _mm_sad_epu8(columns, _mm_setzero_si128());
  return static_cast<std::size_t>(_mm_cvtsi128_si32(halves)) + static_cast<std::size_t>(_mm_extract_epi16(halves, 4));
}
#endif

}  // namespace

std::size_t count_line_ends(std::string_view text) {
  const char* p = text.data();
  const char* const end = p + text.size();
  std::size_t count = 0;
#ifdef __SSE2__
  while (end - p >= 16) {
    const std::size_t stretches = std::min<std::size_t>(static_cast<std::size_t>(end - p) / 16, 255);
    count += line_ends_in_columns(p, stretches);
    p += 16 * stretches;
  }
#endif
  for (; p != end; ++p) count += *p == '\n' ? 1U : 0U;
  return count;
}

void move_on(Place& place, const char* from, const char* to) {
  for (const char* p = from; p < to; ++p) {
    if (*p == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((static_cast<unsigned char>(*p) & 0xC0U) != 0x80U) {
      ++place.column;
    }
  }
}

Place place_in_row(const CsvScanner& row, const char* at, const std::string& file, std::uint32_t line) {
  Place place{file, line, 1};
  move_on(place, row.row_begin(), at);
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
  has_copies_ = false;
  const char* cell = begin_;
  for (const char* block = begin_; block < end_; block += 64) {
    Marks marks = marks_in_64(block, separator_);
    if (end_ - block < 64) {
      const std::uint64_t inside = (std::uint64_t{1} << (end_ - block)) - 1;
      marks = {marks.separators & inside, marks.stops & inside};
    }
    const std::uint64_t stop = marks.stops & -marks.stops;  // the first, or none
    if (count_ + 65 > cells_.size()) cells_.resize(2 * count_ + 130);
    Cell* next_cell = cells_.data() + count_;
    for (std::uint64_t separators = marks.separators & (stop - 1); separators != 0; separators &= separators - 1) {
      const char* const at = block + std::countr_zero(separators);
      *next_cell++ = {{cell, static_cast<std::size_t>(at - cell)}, cell};
      cell = at + 1;
    }
    count_ = static_cast<std::size_t>(next_cell - cells_.data());
    if (stop == 0) continue;
    const char* const at = block + std::countr_zero(stop);
    if (*at == '"') {
      next_with_quotes();
    } else {
      finish_row(cell, at);
    }
    return true;
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
    has_copies_ = true;
  }
  return to < end_ ? to + 1 : end_;
}

}  // namespace driftwarden

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
__m128i load_16(const char* p) { return _mm_loadu_si128(reinterpret_cast<const __m128i*>(p)); }

// The bits of a quarter of 64 bytes, the first to the fourth.
[[gnu::always_inline]] inline std::uint64_t bits_of(__m128i hits, unsigned quarter) {
  return std::uint64_t{static_cast<std::uint32_t>(_mm_movemask_epi8(hits))} << (16 * quarter);
}

[[gnu::always_inline]] inline Marks marks_in_64(const char* p, char separator) {
  const __m128i s = _mm_set1_epi8(separator);
  const __m128i n = _mm_set1_epi8('\n');
  const __m128i q = _mm_set1_epi8('"');
  Marks marks;
  for (unsigned k = 0; k < 4; ++k) {
    const __m128i v = load_16(p + std::size_t{16} * k);
    marks.separators |= bits_of(_mm_cmpeq_epi8(v, s), k);
    marks.stops |= bits_of(_mm_or_si128(_mm_cmpeq_epi8(v, n), _mm_cmpeq_epi8(v, q)), k);
  }
  return marks;
}

// A bit for each of 64 bytes that is the same in two places.
[[gnu::always_inline]] inline std::uint64_t same_in_64(const char* a, const char* b) {
  std::uint64_t same = 0;
  for (unsigned k = 0; k < 4; ++k) {
    same |= bits_of(_mm_cmpeq_epi8(load_16(a + std::size_t{16} * k), load_16(b + std::size_t{16} * k)), k);
  }
  return same;
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

std::uint64_t same_in_64(const char* a, const char* b) {
  std::uint64_t same = 0;
  for (unsigned k = 0; k < 64; ++k) same |= std::uint64_t{a[k] == b[k]} << k;
  return same;
}
#endif

#ifdef __SSE2__
// The line ends in a whole number of stretches of 16 bytes, at most 255: each byte of the sum counts its own column.
std::size_t line_ends_in_columns(const char* p, std::size_t stretches) {
  const __m128i n = _mm_set1_epi8('\n');
  __m128i columns = _mm_setzero_si128();
  for (std::size_t k = 0; k < stretches; ++k) {
    columns = _mm_sub_epi8(columns, _mm_cmpeq_epi8(load_16(p + 16 * k), n));
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

void CsvScanner::go_on_behind(const CsvScanner& other) {
  next_ = other.next_;
  end_ = other.end_;
  separator_ = other.separator_;
  begin_ = other.begin_;
  has_quotes_ = other.has_quotes_;
  count_ = other.count_;
  if (ends_.size() < other.ends_.size()) ends_.resize(other.ends_.size());
  if (!has_quotes_) std::copy_n(other.ends_.begin(), count_, ends_.begin());
  marks_ = other.marks_;
  words_of_row_ = other.words_of_row_;
}

bool CsvScanner::next() {
  if (next_ >= end_) return false;
  above_ = has_quotes_ ? nullptr : begin_;
  begin_ = next_;
  extra_lines_ = 0;
  fault_ = CsvFault::none;
  has_copies_ = has_quotes_ = false;
  is_laid_out_as_above_ = above_ != nullptr;
  std::size_t word = 0;
  for (const char* block = begin_; block < end_; block += 64, ++word) {
    Marks marks = marks_in_64(block, separator_);
    if (end_ - block < 64) {
      const std::uint64_t inside = (std::uint64_t{1} << (end_ - block)) - 1;
      marks = {marks.separators & inside, marks.stops & inside};
    }
    const std::uint64_t stop = marks.stops & -marks.stops;  // the first, or none
    const std::uint64_t of_row = (marks.separators & (stop - 1)) | stop;
    if (word < words) {
      is_laid_out_as_above_ &= marks_[word] == of_row;
      marks_[word] = of_row;
    }
    if (stop == 0) continue;
    const char* const at = block + std::countr_zero(stop);
    if (*at == '"') {
      next_with_quotes();
    } else {
      finish_row(at, word + 1);
    }
    return true;
  }
  finish_row(end_, word);
  return true;
}

// A last row without a line end is laid out like no other.
void CsvScanner::finish_row(const char* line_end, std::size_t words_here) {
  next_ = line_end < end_ ? line_end + 1 : end_;
  const bool are_as_many_words = std::exchange(words_of_row_, words_here) == words_here;
  is_laid_out_as_above_ &= are_as_many_words && words_here <= words && line_end < end_;
  if (!is_laid_out_as_above_) lay_out(line_end, words_here);
  row_end_ = line_end > begin_ + begin_of(count_ - 1) && line_end[-1] == '\r' ? line_end - 1 : line_end;
  const auto size = static_cast<std::uint32_t>(row_end_ - begin_);
  // Above there may be a carriage return before the line end, and here none.
  is_laid_out_as_above_ &= std::exchange(ends_[count_ - 1], size) == size;
  if (!is_laid_out_as_above_) return;
  compare_with_above(words_here);
  if (row_end_ != line_end) changed_[size / 64] |= std::uint64_t{1} << (size % 64);  // no mark, so nothing is known
}

void CsvScanner::lay_out(const char* line_end, std::size_t words_here) {
  count_ = 0;
  for (std::size_t word = 0; word < words_here; ++word) {
    if (ends_.size() < count_ + 65) ends_.resize(2 * count_ + 130);
    const char* const block = begin_ + 64 * word;
    std::uint64_t marks = word < words ? marks_[word] : marks_in_64(block, separator_).separators;
    if (word >= words && line_end - block < 64) marks &= (std::uint64_t{1} << (line_end - block)) - 1;
    for (; marks != 0; marks &= marks - 1) {
      ends_[count_++] = static_cast<std::uint32_t>(64 * word + static_cast<unsigned>(std::countr_zero(marks)));
    }
  }
  const auto size = static_cast<std::uint32_t>(line_end - begin_);
  if (count_ == 0 || ends_[count_ - 1] != size) ends_[count_++] = size;
}

// All bytes of the cells are set and those that differ from above added: in a cell that has any, the sum is carried on
// to the mark at its end.
void CsvScanner::compare_with_above(std::size_t words_here) {
  std::uint64_t carried = 0;
  for (std::size_t word = 0; word < words_here; ++word) {
    const std::uint64_t in_cells = ~marks_[word];
    const std::uint64_t differ = in_cells & ~same_in_64(begin_ + 64 * word, above_ + 64 * word);
    std::uint64_t sum = 0;
    const bool is_carried_on = __builtin_add_overflow(in_cells, differ, &sum);
    changed_[word] = sum + carried;
    carried = is_carried_on || changed_[word] < sum ? 1 : 0;
    changed_[word] &= marks_[word];
  }
}

// The same row again from its beginning, now minding quotes.
void CsvScanner::next_with_quotes() {
  has_quotes_ = true;
  is_laid_out_as_above_ = false;
  quoted_.clear();
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
      add_quoted(cell, carriage_return ? at - 1 : at);
    }
    if (at >= end_ || *at == '\n') {
      next_ = at < end_ ? at + 1 : end_;
      row_end_ = at > begin_ && at[-1] == '\r' ? at - 1 : at;
      count_ = quoted_.size();
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
  add_quoted(from, to);
  quoted_.back().raw = quote;
  if (has_doubled) {
    std::string& text = unescaped_.emplace_back();
    for (const char* p = from; p < to; ++p) {
      text += *p;
      if (*p == '"') ++p;
    }
    quoted_.back().text = text;
    has_copies_ = true;
  }
  return to < end_ ? to + 1 : end_;
}

}  // namespace driftwarden

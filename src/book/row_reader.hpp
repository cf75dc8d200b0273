// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "book/csv_scanner.hpp"
#include "book/empty_marks.hpp"
#include "book/problem_list.hpp"
#include "book/short_text.hpp"
#include "book/table_layout.hpp"
#include "book/timestamp.hpp"
#include "quantity/number.hpp"
#include "record/decimal_column.hpp"
#include "record/moment.hpp"
#include "record/sample.hpp"
#include "record/text_pool.hpp"

namespace driftwarden {

// The book's texts, while several threads read it.
class SharedTexts {
 public:
  explicit SharedTexts(TextPool& pool) : pool_(pool) {}
  // The number of a text and where the pool keeps it.
  std::pair<TextId, std::string_view> intern(std::string_view text);

 private:
  std::mutex mutex_;
  TextPool& pool_;
};

// What reading any row of a file needs.
struct RowContext {
  const TableLayout& layout;
  const TableSpec& spec;
  const std::string& file;
  const TimeZone& zone;
  DateOrder dates;
  char decimal;
  SharedTexts& texts;
  ProblemList& problems;
  ProblemNumber& lost;  // the first fault by which rows of the table were lost, with all that stood in them
  const EmptyMarks& empty_marks;
};

// "pre, field or post"
std::string list_of(std::span<const std::string_view> words);

// "between -93.15 °C and 126.85 °C is plausible"
std::string plausible_text(double least, double most, const Unit& unit);

// Cells of one row after another, as figures, moments and words. A cell that can't be understood is reported with its
// place and read as missing; `problem()` then names the row's first fault. Where the row has not as many cells as the
// heading line, nobody knows which is which: that is told, and nothing of its cells. One reader belongs to one thread.
class RowReader {
 public:
  explicit RowReader(const RowContext& context);

  void start(const CsvScanner& row, std::uint32_t line);

  bool has(int field) const { return context_.layout.has(field); }
  std::string_view text(int field) { return cell(field); }
  // The cell as it stands in the file, blanks and marks of emptiness included; empty where nobody wrote the field. Of
  // one that is the same as another, the text is the same.
  [[gnu::always_inline]] std::string_view raw_text(int field) const { return raw_text_in(*row_, field); }
  // Whether the cell surely is the same as that of the row above, and this reader read that row last.
  [[gnu::always_inline]] bool repeats(int field) const {
    const std::size_t column = places_[static_cast<std::size_t>(field)].column;
    return is_below_last_ && column < row_->cell_count() && row_->repeats(column);
  }
  // The same of any row of the file.
  [[gnu::always_inline]] std::string_view raw_text_in(const CsvScanner& row, int field) const {
    const std::size_t column = places_[static_cast<std::size_t>(field)].column;
    return column < row.cell_count() ? row.text(column) : std::string_view();
  }
  bool is_empty(int field);               // a moment also where it has no time of day
  std::string_view kept_text(int field);  // one that goes into a record: told where it is not UTF-8
  // In the inside unit of the heading's dimension; a plain number as written.
  double quantity(int field) { return quantity_as_written(field).inside; }
  struct Quantity {
    double inside = missing;   // missing also where it can't be
    double written = missing;  // the number itself
  };
  [[gnu::always_inline]] Quantity quantity_as_written(int field) {
    const std::string_view written = cell(field);
    if (written.empty()) return {};
    if (context_.decimal != '.' || row_->has_copies()) return quantity_from_copy(field, written);
    return quantity_from(field, written, number_from_padded(written));
  }
  // Of a part of the field's cell, as what stands behind a sign: the same faults are told.
  double quantity_in(int field, std::string_view part) { return quantity_from_copy(field, part).inside; }
  // Writes a cell that is digits with at most a point among them into a column, where that holds them by its form.
  // False: to be read and put as any other.
  [[gnu::always_inline]] bool put_digits(int field, DecimalColumn& column, Row row) {
    const std::string_view written = raw_text(field);
    const bool may_be = !written.empty() && !context_.empty_marks.may_begin(written.front());
    if (!may_be || context_.decimal != '.' || row_->has_copies()) return false;
    const std::optional<FewDigits> number = few_digits_from_padded(written);
    return number && column.put_digits(row, number->digits, number->decimals);
  }
  // Of a cell that may hold anything: nothing is told, and what is no plausible figure is missing.
  Quantity quantity_if_any(int field) const;
  [[gnu::always_inline]] Moment moment(int field) {
    if (places_[static_cast<std::size_t>(field)].clock_column != no_column) return joined_moment(field);
    const std::string_view written = cell(field);
    Moment moment = no_moment;
    if (written.empty() || stamps_.read(written, moment)) return moment;
    return no_such_moment(field, written);
  }
  // A figure that has to be whole, without a unit; one that is not is told by the id, and stays as it is.
  double whole_number(int field, std::string id, std::string hint);
  Day date(int field);
  // Position of the cell among the words, or -1 where the cell is empty or is none of them (then reported).
  [[gnu::always_inline]] int word(int field, std::span<const std::string_view> words) {
    LastText& last = last_text_[static_cast<std::size_t>(field)];
    return is_last(last, field) ? static_cast<int>(last.id) : word_anew(field, words);
  }
  YesNo yes_no(int field);
  [[gnu::always_inline]] TextId interned(int field) {
    LastText& last = last_text_[static_cast<std::size_t>(field)];
    if (is_last(last, field)) return last.id;
    const std::string_view raw = raw_text(field);
    if (raw.empty()) return interned_anew(field);
    const LastText& lately = lately_at(raw);
    return is_same_text(lately.text, raw) ? lately.id : interned_anew(field);
  }
  std::string note(int field);      // the note, with the cells of unknown columns behind it
  TextId interned_note(int field);  // the same

  // Nothing leans on the row's cell: what is wrong with it is a remark.
  void spare(int field) { spared_ |= 1U << static_cast<unsigned>(field); }

  ProblemNumber problem() const { return problem_; }
  // The row leans on a record with this problem, if it is one. Told already where that record stands.
  void lean_on(ProblemNumber problem) {
    if (problem_ == no_problem) problem_ = problem;
  }
  // Reports a fault of a cell; the row's problem is the first of its faults. Its number, or no_problem where nothing is
  // told of the row's cells, or nothing leans on this one.
  ProblemNumber fail(int field, std::string id, std::string message, std::string hint);
  // Remarks on a cell; the row stands.
  void doubt(int field, std::string id, std::string message, std::string hint);
  Place place_of(int field) const;

 private:
  static constexpr std::size_t no_column = SIZE_MAX;
  static constexpr std::uint32_t no_line = UINT32_MAX - 1;  // nor does another stand below it
  // What reading a field's cell takes, near together.
  struct FieldPlace {
    std::size_t column = 0;  // no_column where nobody wrote the field
    std::size_t clock_column = no_column;
    Unit unit;
    double least = 0;
    double most = 0;
    bool is_required = false;
  };

  [[gnu::always_inline]] std::string_view cell(int field) {
    const FieldPlace& place = places_[static_cast<std::size_t>(field)];
    if (place.column >= row_->cell_count()) return {};
    const std::string_view text = row_->text(place.column);
    if (!text.empty() && !context_.empty_marks.may_begin(text.front()) && !may_be_blank(text.back())) return text;
    return trimmed_cell(field, text);
  }
  [[gnu::always_inline]] Quantity quantity_from(int field, std::string_view written, std::optional<double> number) {
    const FieldPlace& place = places_[static_cast<std::size_t>(field)];
    const double inside = place.unit.to_inside(number.value_or(missing));
    if (inside >= place.least && inside <= place.most) return {inside, *number};
    return no_such_quantity(field, written, number.has_value());
  }
  // Of ASCII, or the last byte of one of Unicode.
  static bool may_be_blank(char last) { return static_cast<signed char>(last) <= ' '; }

  std::string_view trimmed_cell(int field, std::string_view text);
  bool is_faulty(int field, std::string_view text);
  Quantity quantity_from_copy(int field, std::string_view written);
  Quantity no_such_quantity(int field, std::string_view written, bool is_number);
  Moment no_such_moment(int field, std::string_view written);
  Moment joined_moment(int field);
  std::string_view clock(int field);
  bool is_spared(int field) const { return (spared_ >> static_cast<unsigned>(field) & 1U) != 0; }
  ProblemNumber fail_at(Place place, std::string id, std::string message, std::string hint);
  void check_shape();
  void fail_number(int field, std::string_view written);
  // A cell's text without blanks around it, and what it was understood as.
  struct LastText {
    std::string_view text;
    TextId id = 0;
    std::uint32_t line = no_line;  // where a cell of the field was last understood so
  };
  // Whether a field's cell is what was understood last.
  [[gnu::always_inline]] bool is_last(LastText& last, int field) const {
    const bool is_it = (last.line + 1 == line_ && repeats(field)) || is_same_non_empty(last.text, raw_text(field));
    if (is_it) last.line = line_;
    return is_it;
  }
  [[gnu::always_inline]] static bool is_same_non_empty(std::string_view a, std::string_view b) {
    return !a.empty() && is_same_text(a, b);
  }
  int word_anew(int field, std::span<const std::string_view> words);
  TextId interned_anew(int field);
  LastText& lately_at(std::string_view text) {
    return lately_interned_[static_cast<unsigned char>(text.back()) % lately_interned_.size()];
  }
  LastText known(int field, std::string_view text);
  bool is_sound(int field, std::string_view text);
  std::string joined_note(int field);

  RowContext context_;
  std::vector<FieldPlace> places_;  // by field
  StampReader stamps_;
  const CsvScanner* row_ = nullptr;
  std::uint32_t line_ = no_line;
  bool is_below_last_ = false;  // whether the row stands on the line below that of the row before
  ProblemNumber problem_ = no_problem;
  bool is_misshapen_ = false;
  std::uint32_t never_needed_ = 0;   // a bit a field
  std::uint32_t spared_ = 0;         // the same, and those of the row
  std::string plain_;                // the last text whose blanks were made plain
  std::vector<std::uint32_t> told_;  // by field: the line of the last faulty cell of a sheet that was told
  std::unordered_map<std::string_view, TextId> known_texts_;
  std::vector<LastText> last_text_;           // by field: the same text often comes again at once
  std::array<LastText, 64> lately_interned_;  // or soon
};

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/row_reader.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <utility>

#include "book/empty_marks.hpp"
#include "book/plain_text.hpp"
#include "book/sheet_cell.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/letters.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

constexpr std::array<std::string_view, 2> yes_no_words{"no", "yes"};

bool same_word(std::string_view written, std::string_view word) {
  return std::equal(written.begin(), written.end(), word.begin(), word.end(),
                    [](char a, char b) { return small_letter(a) == small_letter(b); });
}

// A number but for a letter O where a 0 should be, or an l or I for a 1.
bool is_number_with_letters(std::string_view written) {
  std::string digits(written);
  for (char& c : digits) {
    if (c == 'o' || c == 'O') c = '0';
    if (c == 'l' || c == 'I') c = '1';
    if (c == ',') c = '.';
  }
  return number_from(digits).has_value();
}

// A number but for blanks in it, as by a slip of the space bar or between thousands.
bool is_number_with_blanks(std::string_view written) {
  std::string digits(written);
  digits = with_plain_blanks(digits);
  std::erase(digits, ' ');
  std::erase(digits, '\t');
  std::replace(digits.begin(), digits.end(), ',', '.');
  return digits.size() < written.size() && number_from(digits).has_value();
}

// A bound in the unit that was written, without the noise of its conversion: -93.15 °C, not -93.14999999999998 °C.
std::string with_unit(double inside, const Unit& unit) {
  const std::optional<double> written = number_from(with_significant_digits(unit.from_inside(inside), 12));
  return shortest(written.value_or(inside)) + (unit.name.empty() ? "" : " " + std::string(unit.name));
}

}  // namespace

std::string plausible_text(double least, double most, const Unit& unit) {
  return "between " + with_unit(least, unit) + " and " + with_unit(most, unit) + " is plausible";
}

std::string list_of(std::span<const std::string_view> words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + std::string(words[i]);
  }
  return text;
}

std::pair<TextId, std::string_view> SharedTexts::intern(std::string_view text) {
  const std::scoped_lock lock(mutex_);
  const TextId id = pool_.id_of(text);
  return {id, pool_.text(id)};
}

RowReader::RowReader(const RowContext& context)
    : context_(context),
      stamps_(context.zone, context.dates),
      told_(context.spec.fields.size()),
      last_text_(context.spec.fields.size()) {
  for (std::size_t f = 0; f < context.spec.fields.size(); ++f) {
    const FieldSpec& spec = context.spec.fields[f];
    const int column = context.layout.column_of_field[f];
    const int clock = context.layout.clock_of_field[f];
    places_.push_back({column < 0 ? no_column : static_cast<std::size_t>(column),
                       clock < 0 ? no_column : static_cast<std::size_t>(clock), context.layout.unit_of_field[f],
                       spec.least, spec.most, spec.is_required});
    if (!spec.is_needed) never_needed_ |= 1U << f;
  }
}

void RowReader::start(const CsvScanner& row, std::uint32_t line) {
  row_ = &row;
  is_below_last_ = line == line_ + 1;
  line_ = line;
  problem_ = no_problem;
  is_misshapen_ = false;
  spared_ = never_needed_;
  if (row.fault() != CsvFault::none || row.cell_count() != context_.layout.columns) check_shape();
}

void RowReader::check_shape() {
  if (row_->fault() != CsvFault::none) {
    problem_ = context_.problems.add(csv_fault(*row_, context_.file, line_));
  } else {
    fail_at({context_.file, line_, 0}, "csv/cell-count",
            "the row has " + std::to_string(row_->cell_count()) + " cells, the heading line " +
                std::to_string(context_.layout.columns),
            "write one cell for each heading; a cell that holds the separator goes in quotes");
  }
  is_misshapen_ = row_->cell_count() != context_.layout.columns;
  // A quote too many makes rows the text of a cell, up to the next quote or the end of the file.
  const bool has_swallowed_rows = row_->fault() == CsvFault::open_quote || row_->extra_lines() > 0;
  if (has_swallowed_rows && context_.lost == no_problem) context_.lost = problem_;
}

std::string_view RowReader::trimmed_cell(int field, std::string_view text) {
  if (is_faulty(field, text)) return {};
  text = trimmed(text);
  if (context_.empty_marks.hold(text)) text = {};
  if (text.empty() && places_[static_cast<std::size_t>(field)].is_required) {
    fail(field, "cell/empty",
         "the cell under " + in_quotes(context_.spec.fields[static_cast<std::size_t>(field)].name) + " is empty",
         "every row needs one");
  }
  return text;
}

// A sheet's cell that can't be read: told once.
bool RowReader::is_faulty(int field, std::string_view text) {
  if (!context_.layout.is_of_sheet || !text.starts_with(fault_mark)) return false;
  std::uint32_t& told = told_[static_cast<std::size_t>(field)];
  if (std::exchange(told, line_) == line_) return true;
  StampFault fault = cell_fault(text);
  fail(field, std::move(fault.id), std::move(fault.message), std::move(fault.hint));
  return true;
}

// Of a text that is not the file's own bytes, or has the owner's decimal comma; a point would then be ambiguous and is
// refused.
RowReader::Quantity RowReader::quantity_from_copy(int field, std::string_view written) {
  if (context_.decimal == '.') return quantity_from(field, written, number_from(written));
  if (written.find('.') != std::string_view::npos) return no_such_quantity(field, written, false);
  std::string with_point(written);
  std::replace(with_point.begin(), with_point.end(), context_.decimal, '.');
  return quantity_from(field, written, number_from(with_point));
}

RowReader::Quantity RowReader::quantity_if_any(int field) const {
  std::string written(trimmed(raw_text(field)));
  if (context_.decimal != '.') {
    if (written.find('.') != std::string::npos) return {};
    std::replace(written.begin(), written.end(), context_.decimal, '.');
  }
  const double number = number_from(written).value_or(missing);
  const FieldPlace& place = places_[static_cast<std::size_t>(field)];
  const double inside = place.unit.to_inside(number);
  return inside >= place.least && inside <= place.most ? Quantity{inside, number} : Quantity{};
}

RowReader::Quantity RowReader::no_such_quantity(int field, std::string_view written, bool is_number) {
  if (!is_number) {
    fail_number(field, written);
    return {};
  }
  const auto f = static_cast<std::size_t>(field);
  const FieldPlace& place = places_[f];
  fail(field, "cell/implausible",
       "the " + std::string(context_.spec.fields[f].name) + " " + in_quotes(written) + " can't be",
       plausible_text(place.least, place.most, place.unit) + "; is the unit in the heading right?");
  return {};
}

void RowReader::fail_number(int field, std::string_view written) {
  std::string hint = "write digits with '";
  hint += context_.decimal;
  hint += "' as decimal sign";
  if (is_number_with_blanks(written)) {
    hint += "; a blank stands between digits";
  } else if (context_.decimal == '.' && written.find(',') != std::string_view::npos) {
    hint += ", or set decimal = \",\" in book.toml";
  } else if (context_.decimal == ',' && written.find('.') != std::string_view::npos) {
    hint += "; a point is not one in this book";
  } else if (is_number_with_letters(written)) {
    hint += "; a letter stands where a digit should";
  } else {
    hint += "; the unit belongs in the heading";
  }
  fail(field, "cell/not-a-number", in_quotes(written) + " is not a number", std::move(hint));
}

Moment RowReader::no_such_moment(int field, std::string_view written) {
  if (has_wide_blank(written)) {
    plain_ = with_plain_blanks(written);
    Moment moment = no_moment;
    if (stamps_.read(plain_, moment)) return moment;
  }
  StampFault why = stamps_.why(written);
  fail(field, std::move(why.id), std::move(why.message), std::move(why.hint));
  return no_moment;
}

// The time of day of a moment that is written in two columns.
std::string_view RowReader::clock(int field) {
  const std::size_t column = places_[static_cast<std::size_t>(field)].clock_column;
  if (column >= row_->cell_count()) return {};
  const std::string_view text = row_->text(column);
  if (is_faulty(field, text)) return {};
  const std::string_view written = trimmed(text);
  return context_.empty_marks.hold(written) ? std::string_view() : written;
}

// From a date and a time of day. A workbook's date may come with midnight.
Moment RowReader::joined_moment(int field) {
  std::string_view date = cell(field);
  const std::string_view time = clock(field);
  Moment moment = no_moment;
  if (time.empty()) {
    if (!date.empty() && stamps_.read(date, moment) && !date.ends_with("T00:00")) return moment;
    const FieldPlace& place = places_[static_cast<std::size_t>(field)];
    if (place.is_required && !date.empty()) {
      fail(field, "cell/empty",
           "the time of day under " + in_quotes(context_.spec.fields[static_cast<std::size_t>(field)].name) +
               " is empty",
           "every row needs one");
    }
    return no_moment;
  }
  if (date.ends_with("T00:00")) date.remove_suffix(6);
  const std::string written = date.empty() ? std::string(time) : std::string(date) + ' ' + std::string(time);
  return stamps_.read(written, moment) ? moment : no_such_moment(field, written);
}

bool RowReader::is_empty(int field) {
  if (text(field).empty()) return true;
  if (places_[static_cast<std::size_t>(field)].clock_column == no_column || !clock(field).empty()) return false;
  Moment moment = no_moment;
  return !stamps_.read(text(field), moment) || text(field).ends_with("T00:00");
}

std::string_view RowReader::kept_text(int field) {
  const std::string_view written = cell(field);
  if (!is_sound(field, written) || !has_wide_blank(written)) return written;
  return plain_ = with_plain_blanks(written);
}

bool RowReader::is_sound(int field, std::string_view text) {
  if (is_utf8(text)) return true;
  fail(field, "csv/not-utf-8", in_quotes(text) + " is not UTF-8", "save the file as CSV in UTF-8");
  return false;
}

double RowReader::whole_number(int field, std::string id, std::string hint) {
  const double number = quantity(field);
  if (!is_missing(number) && number != std::floor(number))
    fail(field, std::move(id), in_quotes(text(field)) + " is not a whole number", std::move(hint));
  return number;
}

Day RowReader::date(int field) {
  const std::string_view written = cell(field);
  Day day = no_day;
  if (written.empty() || stamps_.read_date(written, day)) return day;
  StampFault why = stamps_.why_date(written);
  fail(field, std::move(why.id), std::move(why.message), std::move(why.hint));
  return no_day;
}

int RowReader::word_anew(int field, std::span<const std::string_view> words) {
  const std::string_view written = cell(field);
  if (written.empty()) return -1;
  LastText& last = last_text_[static_cast<std::size_t>(field)];
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!same_word(written, words[i])) continue;
    if (written == words[i]) last = {words[i], static_cast<TextId>(i), line_};
    return static_cast<int>(i);
  }
  const std::string near = nearest(written, words);
  fail(field, "cell/unknown-word",
       in_quotes(written) + " is no word for " + in_quotes(context_.spec.fields[static_cast<std::size_t>(field)].name),
       (near.empty() ? "" : "did you mean " + in_quotes(near) + "? ") + ("write " + list_of(words)));
  return -1;
}

YesNo RowReader::yes_no(int field) {
  const int position = word(field, yes_no_words);
  return position < 0 ? YesNo::unsaid : position == 1 ? YesNo::yes : YesNo::no;
}

TextId RowReader::interned_anew(int field) {
  const std::string_view written = cell(field);
  if (written.empty()) return 0;
  LastText& lately = lately_at(written);
  if (!is_same_text(lately.text, written)) lately = known(field, written);
  LastText& last = last_text_[static_cast<std::size_t>(field)];
  last = lately;
  if (!lately.text.empty()) last.line = line_;
  return lately.id;
}

// A text that is not UTF-8 is not remembered, so that every row with it is told.
RowReader::LastText RowReader::known(int field, std::string_view text) {
  const auto found = known_texts_.find(text);
  if (found != known_texts_.end()) return {found->first, found->second};
  if (!is_sound(field, text)) return {};
  const bool is_wide = has_wide_blank(text);
  const auto [id, kept] = is_wide ? context_.texts.intern(with_plain_blanks(text)) : context_.texts.intern(text);
  known_texts_.emplace(kept, id);
  return {is_wide ? std::string_view() : kept, id};
}

TextId RowReader::interned_note(int field) {
  if (context_.layout.notes.empty()) return interned(field);
  const std::string text = joined_note(field);
  return text.empty() ? 0 : known(field, text).id;
}

std::string RowReader::note(int field) {
  std::string note = joined_note(field);
  is_sound(field, note);
  return note;
}

std::string RowReader::joined_note(int field) {
  std::string note(cell(field));
  for (const auto& [column, heading] : context_.layout.notes) {
    if (static_cast<std::size_t>(column) >= row_->cell_count()) continue;
    std::string_view written = trimmed(row_->text(static_cast<std::size_t>(column)));
    if (context_.layout.is_of_sheet && written.starts_with(fault_mark)) written = shown_by_fault(written);
    if (!written.empty() && !context_.empty_marks.hold(written))
      note += (note.empty() ? "" : "; ") + heading + ": " + std::string(written);
  }
  return note;
}

ProblemNumber RowReader::fail(int field, std::string id, std::string message, std::string hint) {
  if (is_spared(field)) return doubt(field, std::move(id), std::move(message), std::move(hint)), no_problem;
  return fail_at(place_of(field), std::move(id), std::move(message), std::move(hint));
}

ProblemNumber RowReader::fail_at(Place place, std::string id, std::string message, std::string hint) {
  if (is_misshapen_) return no_problem;
  const ProblemNumber number =
      context_.problems.add(error(std::move(id), std::move(place), std::move(message), std::move(hint)));
  if (problem_ == no_problem) problem_ = number;
  return number;
}

void RowReader::doubt(int field, std::string id, std::string message, std::string hint) {
  if (is_misshapen_) return;
  context_.problems.add(remark(std::move(id), place_of(field), std::move(message), std::move(hint)));
}

Place RowReader::place_of(int field) const {
  const std::size_t column = places_[static_cast<std::size_t>(field)].column;
  if (column >= row_->cell_count()) return {context_.file, line_, 0};
  if (context_.layout.is_of_sheet) return {context_.file, line_, static_cast<std::uint32_t>(column) + 1};
  return place_in_row(*row_, row_->raw(column), context_.file, line_);
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/sheet_cell.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "diagnostic/diagnostic.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "record/moment.hpp"

namespace driftwarden {
namespace {

constexpr double first_sure_serial = 61;     // 1900-03-01: before it, programs disagree by a day
constexpr double behind_all_days = 2958466;  // 10000-01-01

struct FaultKind {
  char mark;
  const char* id;
  const char* message;
  const char* hint;
};
constexpr std::array<FaultKind, 3> fault_kinds{{
    {'E', "workbook/error-cell", "the cell shows an error", "mend its formula, or write the figure itself"},
    {'F', "workbook/not-worked-out", "the result of the cell's formula is not in the file",
     "open the workbook in a spreadsheet program and save it, or write the figure itself"},
    {'D', "workbook/no-such-day", "the cell is shown as a date, but its number is no day from 1900-03-01 to 9999-12-31",
     "write the date anew"},
}};

void append_fault(std::string& out, char mark, std::string_view shown = {}) { ((out += fault_mark) += mark) += shown; }

void append_two_digits(std::string& out, std::int64_t number) {
  if (number < 10) out += '0';
  out += std::to_string(number);
}

void append_clock(std::string& out, std::int64_t seconds) {
  append_two_digits(out, seconds / 3600);
  out += ':';
  append_two_digits(out, seconds / 60 % 60);
  if (seconds % 60 == 0) return;
  out += ':';
  append_two_digits(out, seconds % 60);
}

void append_day(std::string& out, Day day) {
  const CalendarDate date = date_of(day);
  std::array<char, 32> text{};
  const int size = std::snprintf(text.data(), text.size(), "%04d-%02d-%02d", date.year, date.month, date.day);
  out.append(text.data(), static_cast<std::size_t>(size));
}

double moved_ms(double seconds) { return std::abs(seconds - std::round(seconds)) * 1000; }

double append_duration(std::string& out, double days) {
  const double seconds = std::abs(days) * seconds_a_day;
  if (!(seconds < 1e12)) return append_fault(out, 'D'), 0;
  if (days < 0) out += '-';
  append_clock(out, std::llround(seconds));
  return moved_ms(seconds);
}

// Days from 1899-12-30, as all of them count behind 1900-02.
double append_serial(std::string& out, double serial, NumberLook::Kind look) {
  if (!(serial >= first_sure_serial && serial < behind_all_days)) return append_fault(out, 'D'), 0;
  static const Day origin = day_from({1899, 12, 30});
  const std::int64_t seconds = std::llround(serial * seconds_a_day);
  append_day(out, origin + static_cast<Day>(seconds / seconds_a_day));
  if (look != NumberLook::Kind::date || seconds % seconds_a_day != 0) {
    out += 'T';
    append_clock(out, seconds % seconds_a_day);
  }
  return moved_ms(serial * seconds_a_day);
}

// An ISO date-time; a fraction of a second is rounded away.
double append_moment(std::string& out, std::string_view text) {
  const std::size_t point = text.find_first_of(".,");
  const std::size_t end = point == std::string_view::npos ? point : text.find_first_not_of("0123456789", point + 1);
  CalendarDate date;
  int hour = 0, minute = 0, second = 0;
  if (point != 19 ||
      std::sscanf(std::string(text.substr(0, 19)).c_str(), "%4d-%2d-%2dT%2d:%2d:%2d", &date.year, &date.month,
                  &date.day, &hour, &minute, &second) != 6 ||
      !is_valid(date)) {
    out += text;
    return 0;
  }
  const double fraction = number_from("0." + std::string(text.substr(20, end - 20))).value_or(0);
  const std::int64_t seconds = 3600 * hour + 60 * minute + second + (fraction < 0.5 ? 0 : 1);
  append_day(out, day_from(date) + static_cast<Day>(seconds / seconds_a_day));
  out += 'T';
  append_clock(out, seconds % seconds_a_day);
  if (end != std::string_view::npos) out += text.substr(end);
  return moved_ms(fraction);
}

void append_plain(std::string& out, double number, const NumberLook& look, const CellManner& manner) {
  const bool is_percent = look.kind == NumberLook::Kind::percent && manner.in_percent;
  // 0.07 · 100 is 7.000000000000001 in doubles; 15 digits are what a spreadsheet knows.
  if (is_percent) number = number_from(with_significant_digits(100 * number, 15)).value_or(number);
  std::string text = shortest(number);
  const auto digits = static_cast<std::size_t>(look.digits);
  const bool is_whole = text.find_first_not_of("0123456789") == std::string::npos;
  if (is_whole && text.size() < digits) text.insert(0, digits - text.size(), '0');
  std::replace(text.begin(), text.end(), '.', manner.decimal);
  out += text;
}

double append_number(std::string& out, const SheetCell& cell, const CellManner& manner) {
  using Look = NumberLook::Kind;
  switch (cell.look.kind) {
    case Look::plain:
    case Look::percent:
      append_plain(out, cell.number, cell.look, manner);
      return 0;
    case Look::duration:
      return append_duration(out, cell.number);
    case Look::time:
      if (cell.number >= 0 && cell.number < 1) return append_duration(out, cell.number);
      break;
    case Look::date:
    case Look::date_time:
      break;
  }
  return append_serial(out, cell.number, cell.look.kind);
}

// Without the characters that stand for something here; quoted where the row's form asks for it.
void append_text(std::string& out, std::string_view text) {
  const bool is_quoted = text.starts_with('"') || text.find_first_of("\n\r") != std::string_view::npos;
  if (is_quoted) out += '"';
  for (const char c : text) {
    if (c == sheet_separator || c == fault_mark) continue;
    if (is_quoted && c == '"') out += '"';
    out += c;
  }
  if (is_quoted) out += '"';
}

}  // namespace

double append_cell(std::string& out, const SheetCell& cell, const CellManner& manner) {
  using Kind = SheetCell::Kind;
  switch (cell.kind) {
    case Kind::text:
      append_text(out, cell.text);
      return 0;
    case Kind::number:
      return append_number(out, cell, manner);
    case Kind::boolean:
      out += cell.number != 0 ? "yes" : "no";
      return 0;
    case Kind::moment:
      return append_moment(out, cell.text);
    case Kind::duration:
      return append_duration(out, cell.number);
    case Kind::error:
      append_fault(out, 'E', cell.text);
      return 0;
    case Kind::not_worked_out:
      append_fault(out, 'F');
      return 0;
  }
  return 0;
}

std::string_view shown_by_fault(std::string_view text) { return text.substr(std::min<std::size_t>(text.size(), 2)); }

StampFault cell_fault(std::string_view text) {
  const char mark = text.size() > 1 ? text[1] : '\0';
  const auto* kind = std::find_if(fault_kinds.begin(), fault_kinds.end() - 1,
                                  [mark](const FaultKind& one) { return one.mark == mark; });
  const std::string_view shown = shown_by_fault(text);
  return {kind->id, kind->message + (shown.empty() ? "" : ": " + in_quotes(shown)), kind->hint};
}

}  // namespace driftwarden

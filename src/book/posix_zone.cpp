// SPDX-License-Identifier: MIT
#include "book/posix_zone.hpp"

#include <algorithm>

#include "book/plain_text.hpp"
#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

constexpr int longest_offset_h = 24;
constexpr int longest_change_h = 167;
constexpr std::size_t shortest_name = 3;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// Takes one part after another from the front of the text; the first that does not fit leaves its reason.
class PosixScanner {
 public:
  explicit PosixScanner(std::string_view text) : rest_(text) {}

  std::optional<PosixZone> zone() {
    PosixZone zone;
    if (!name(zone.name) || !offset(zone.offset_s)) return std::nullopt;
    if (!rest_.empty() && !summer(zone)) return std::nullopt;
    if (!rest_.empty()) return fail("nothing may follow the second clock change"), std::nullopt;
    return zone;
  }

  const std::string& why() const { return why_; }

 private:
  bool fail(std::string why) {
    if (why_.empty()) why_ = std::move(why);
    return false;
  }

  bool accept(char c) {
    if (rest_.empty() || rest_.front() != c) return false;
    rest_.remove_prefix(1);
    return true;
  }

  bool name(std::string& out) {
    const bool in_brackets = accept('<');
    const auto belongs = [&](char c) { return is_letter(c) || (in_brackets && (is_digit(c) || c == '+' || c == '-')); };
    const auto end = std::find_if_not(rest_.begin(), rest_.end(), belongs);
    out.assign(rest_.begin(), end);
    rest_.remove_prefix(out.size());
    if (out.size() < shortest_name) return fail("a clock needs a name of three letters or more, as MST or <-07>");
    if (in_brackets && !accept('>')) return fail("the name '<" + out + "' is not closed with '>'");
    return true;
  }

  bool number(int low, int high, int& out, const char* what) {
    const std::size_t longest = 3;
    std::size_t digits = 0;
    out = 0;
    while (digits < longest && digits < rest_.size() && is_digit(rest_[digits]))
      out = out * 10 + (rest_[digits++] - '0');
    const bool good = digits > 0 && out >= low && out <= high;
    if (!good) return fail(std::string(what) + " must be " + std::to_string(low) + " to " + std::to_string(high));
    rest_.remove_prefix(digits);
    return true;
  }

  // [+-]h[:m[:s]]
  bool clock_time(int longest_h, std::int32_t& seconds) {
    const bool negative = accept('-');
    if (!negative) accept('+');
    int h = 0, m = 0, s = 0;
    if (!number(0, longest_h, h, "hours")) return false;
    if (accept(':') && !number(0, 59, m, "minutes")) return false;
    if (accept(':') && !number(0, 59, s, "seconds")) return false;
    seconds = h * 3600 + m * 60 + s;
    if (seconds > longest_h * 3600) return fail("hours must be 0 to " + std::to_string(longest_h));
    if (negative) seconds = -seconds;
    return true;
  }

  bool offset(std::int32_t& east_s) {
    std::int32_t west_s = 0;
    if (rest_.empty()) return fail("after the name the hours west of UTC must follow, as MST7");
    if (!clock_time(longest_offset_h, west_s)) return false;
    east_s = -west_s;
    return true;
  }

  bool summer(PosixZone& zone) {
    SummerTime summer;
    if (!name(summer.name)) return false;
    summer.offset_s = zone.offset_s + 3600;
    if (!rest_.empty() && rest_.front() != ',' && !offset(summer.offset_s)) return false;
    if (rest_.empty()) return fail("two clocks need the days on which they change, as MST7MDT,M3.2.0,M11.1.0");
    if (!change(summer.begins) || !change(summer.ends)) return false;
    zone.summer = summer;
    return true;
  }

  bool change(ClockChange& out) {
    if (!accept(',')) return fail("two clock changes are needed, each after a comma");
    if (!day(out)) return false;
    return !accept('/') || clock_time(longest_change_h, out.second_of_day);
  }

  bool day(ClockChange& out) {
    if (accept('M')) return weekday_of_month(out);
    const bool julian = accept('J');
    out.form = julian ? ClockChange::Form::day_without_leap_day : ClockChange::Form::day_from_zero;
    return number(julian ? 1 : 0, 365, out.day, "the day of a clock change");
  }

  bool weekday_of_month(ClockChange& out) {
    out.form = ClockChange::Form::weekday_of_month;
    return number(1, 12, out.month, "the month of a clock change") && dot() &&
           number(1, 5, out.week, "the week of a clock change") && dot() &&
           number(0, 6, out.weekday, "the weekday of a clock change");
  }

  bool dot() { return accept('.') || fail("a clock change by weekday is written Mmonth.week.weekday, as M3.2.0"); }

  std::string_view rest_;
  std::string why_;
};

Day day_of_weekday(const ClockChange& change, int year) {
  const Day first = day_from({year, change.month, 1});
  int day = (change.weekday - weekday_of(first) + 7) % 7 + 7 * (change.week - 1);
  if (day >= days_in_month(year, change.month)) day -= 7;
  return first + day;
}

Day day_of(const ClockChange& change, int year) {
  const Day new_year = day_from({year, 1, 1});
  switch (change.form) {
    case ClockChange::Form::weekday_of_month:
      return day_of_weekday(change, year);
    case ClockChange::Form::day_from_zero:
      return new_year + change.day;
    case ClockChange::Form::day_without_leap_day:
      break;
  }
  const int last_day_before_leap_day = 59;
  return new_year + change.day - 1 + (change.day > last_day_before_leap_day && is_leap_year(year) ? 1 : 0);
}

}  // namespace

std::int64_t ClockChange::local_second_in(int year) const {
  return day_of(*this, year) * seconds_a_day + second_of_day;
}

std::optional<PosixZone> read_posix_zone(std::string_view text, std::string& why) {
  PosixScanner scanner(text);
  auto zone = scanner.zone();
  if (!zone) why = scanner.why();
  return zone;
}

}  // namespace driftwarden

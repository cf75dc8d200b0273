// SPDX-License-Identifier: MIT
#include "book/stamp_parts.hpp"

#include "book/plain_text.hpp"

namespace driftwarden {
namespace {

// Walks through a text from front to back; each step takes its part or leaves the text where it was.
class StampScanner {
 public:
  StampScanner(std::string_view text, StampParts& parts)
      : next_(text.data()), end_(text.data() + text.size()), parts_(parts) {}

  bool at_end() const { return next_ == end_; }

  Misfit date(DateOrder order) {
    const char* const begin = next_;
    if (iso_date()) return Misfit::none;
    next_ = begin;
    if (year_first_date()) return Misfit::none;
    next_ = begin;
    return date_in_order(order);
  }

  bool accept_separator() { return accept('T') || accept(' '); }

  Misfit time() {
    if (!one_or_two_digits(parts_.hour) || !accept(':') || !two_digits(parts_.minute)) return Misfit::shape;
    const bool has_seconds = accept(':');
    if (has_seconds && !two_digits(parts_.second)) return Misfit::shape;
    if (parts_.hour > 23 || parts_.minute > 59 || parts_.second > 59) return Misfit::no_such_time;
    return at_end() ? Misfit::none : after_time(has_seconds);
  }

 private:
  bool accept(char c) {
    if (at_end() || *next_ != c) return false;
    ++next_;
    return true;
  }

  bool two_digits(int& out) {
    if (end_ - next_ < 2 || !is_digit(next_[0]) || !is_digit(next_[1])) return false;
    out = (next_[0] - '0') * 10 + (next_[1] - '0');
    next_ += 2;
    return true;
  }

  bool one_or_two_digits(int& out) {
    if (two_digits(out)) return true;
    if (at_end() || !is_digit(*next_)) return false;
    out = *next_++ - '0';
    return true;
  }

  bool iso_date() {
    int century = 0, year = 0;
    if (!two_digits(century) || !two_digits(year)) return false;
    parts_.date.year = century * 100 + year;
    return accept('-') && two_digits(parts_.date.month) && accept('-') && two_digits(parts_.date.day);
  }

  bool accept_between(char& separator) {
    if (at_end() || std::string_view("/.-").find(*next_) == std::string_view::npos) return false;
    if (separator != '\0' && *next_ != separator) return false;
    separator = *next_++;
    return true;
  }

  // 2026/11/3, 2026.11.03
  bool year_first_date() {
    int century = 0, year = 0;
    char separator = '\0';
    if (!two_digits(century) || !two_digits(year) || !accept_between(separator) || separator == '-') return false;
    parts_.date.year = century * 100 + year;
    return one_or_two_digits(parts_.date.month) && accept_between(separator) && one_or_two_digits(parts_.date.day) &&
           (at_end() || !is_digit(*next_));
  }

  // 9/21/2026, 21.9.2026, 21.09.26, 21-9-2026; not 26-09-21, which may begin with its year
  Misfit date_in_order(DateOrder order) {
    int first = 0, second = 0;
    char separator = '\0';
    if (!one_or_two_digits(first) || !accept_between(separator) || !one_or_two_digits(second) ||
        !accept_between(separator) || !any_year(separator)) {
      return Misfit::shape;
    }
    if (order == DateOrder::iso) return Misfit::slashes;
    parts_.date.month = order == DateOrder::month_first ? first : second;
    parts_.date.day = order == DateOrder::month_first ? second : first;
    parts_.is_in_order = true;
    return Misfit::none;
  }

  // Of four digits, or of two: 69 to 99 are those of the twentieth century, 00 to 68 those of the twenty-first, as in
  // POSIX strptime (IEEE Std 1003.1, %y; from memory).
  bool any_year(char separator) {
    int century = 0, year = 0;
    if (!two_digits(century)) return false;
    if (two_digits(year)) {
      parts_.date.year = century * 100 + year;
    } else {
      if (separator == '-') return false;
      parts_.date.year = century + (century < 69 ? 2000 : 1900);
    }
    return at_end() || !is_digit(*next_);
  }

  Misfit after_time(bool has_seconds) {
    if (says_half_of_day()) return half_of_day();
    if (*next_ == '.' || *next_ == ',') {
      if (const auto misfit = fraction(has_seconds); misfit != Misfit::none || at_end()) return misfit;
    }
    return offset();
  }

  // am, pm, a.m. or p.m., in either case, after a blank or none.
  bool says_half_of_day() const {
    const char* const mark = next_ + (*next_ == ' ' ? 1 : 0);
    const auto letter_at = [&](std::ptrdiff_t i) { return end_ - mark > i ? static_cast<char>(mark[i] | 0x20) : '\0'; };
    const bool begins = letter_at(0) == 'a' || letter_at(0) == 'p';
    return begins && (letter_at(1) == 'm' || (letter_at(1) == '.' && letter_at(2) == 'm'));
  }

  // 12 am is midnight, 12 pm noon.
  Misfit half_of_day() {
    if (*next_ == ' ') ++next_;
    const bool is_afternoon = (*next_ | 0x20) == 'p';
    for (const char letter : {*next_, 'm'}) {
      if (at_end() || (*next_ | 0x20) != (letter | 0x20)) return Misfit::shape;
      ++next_;
      accept('.');
    }
    if (!at_end()) return Misfit::shape;
    if (parts_.hour < 1 || parts_.hour > 12) return Misfit::twelve_hour;
    parts_.hour = parts_.hour % 12 + (is_afternoon ? 12 : 0);
    return Misfit::none;
  }

  // A fraction of zeros loses nothing; any other has no place in whole seconds.
  Misfit fraction(bool has_seconds) {
    const char* const begin = ++next_;
    bool is_zero = true;
    while (!at_end() && is_digit(*next_)) is_zero = *next_++ == '0' && is_zero;
    if (next_ == begin) return Misfit::shape;
    return is_zero && has_seconds ? Misfit::none : Misfit::fraction;
  }

  Misfit offset() {
    parts_.has_offset = true;
    if (accept('Z')) return at_end() ? Misfit::none : Misfit::shape;
    const bool is_west = *next_ == '-';
    int hours = 0, minutes = 0;
    if ((!accept('-') && !accept('+')) || !two_digits(hours)) return Misfit::shape;
    const bool has_colon = accept(':');
    if ((has_colon || !at_end()) && !two_digits(minutes)) return Misfit::shape;
    if (!at_end()) return Misfit::shape;
    if (hours > 23 || minutes > 59) return Misfit::no_such_offset;
    const int size = hours * 3600 + minutes * 60;
    parts_.offset_s = is_west ? -size : size;
    return Misfit::none;
  }

  const char* next_;
  const char* end_;
  StampParts& parts_;
};

}  // namespace

Misfit take_stamp(std::string_view text, DateOrder order, StampParts& parts) {
  StampScanner scanner(text, parts);
  if (const auto misfit = scanner.date(order); misfit != Misfit::none) return misfit;
  if (scanner.at_end()) return Misfit::date_only;
  return scanner.accept_separator() ? scanner.time() : Misfit::shape;
}

Misfit take_date(std::string_view text, DateOrder order, StampParts& parts) {
  StampScanner scanner(text, parts);
  if (const auto misfit = scanner.date(order); misfit != Misfit::none) return misfit;
  if (scanner.at_end()) return Misfit::none;
  return scanner.accept_separator() ? Misfit::not_only_date : Misfit::shape;
}

}  // namespace driftwarden

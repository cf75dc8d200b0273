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
    return slashed_date(order);
  }

  bool accept_separator() { return accept('T') || accept(' '); }

  Misfit time() {
    const bool has_hour = slashed_ ? one_or_two_digits(parts_.hour) : two_digits(parts_.hour);
    if (!has_hour || !accept(':') || !two_digits(parts_.minute)) return Misfit::shape;
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

  Misfit slashed_date(DateOrder order) {
    int first = 0, second = 0, century = 0, year = 0;
    if (!one_or_two_digits(first) || !accept('/') || !one_or_two_digits(second) || !accept('/')) return Misfit::shape;
    if (!two_digits(century)) return Misfit::shape;
    if (!two_digits(year)) return at_end() || !is_digit(*next_) ? Misfit::short_year : Misfit::shape;
    if (order == DateOrder::iso) return Misfit::slashes;
    parts_.date.year = century * 100 + year;
    parts_.date.month = order == DateOrder::month_first ? first : second;
    parts_.date.day = order == DateOrder::month_first ? second : first;
    slashed_ = true;
    return Misfit::none;
  }

  Misfit after_time(bool has_seconds) {
    if (says_half_of_day()) return Misfit::twelve_hour;
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
  bool slashed_ = false;
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

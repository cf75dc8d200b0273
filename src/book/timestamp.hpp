// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "book/short_text.hpp"
#include "book/time_zone.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// How a date is read that does not begin with its year. Those that do are read in every book; others, with slashes,
// dots or hyphens, only where the book says how.
enum class DateOrder : std::uint8_t { iso, month_first, day_first };

// What is wrong with a date-time or a date, ready for a diagnostic.
struct StampFault {
  std::string id;  // "time/ambiguous"
  std::string message;
  std::string hint;
};

// Reads the date-times and dates of a book, strictly: 2026-11-01T01:30, with or without seconds and offset (Z, ±hh:mm,
// ±hhmm, ±hh), T or one blank between; 2026/11/1; 9/21/2026 7:15, 21.9.26 in the order that is said; hours of one
// digit, or with am and pm. No blanks around the text. Without an offset the time is the zone's. One thread's: it
// remembers the days it has seen.
class StampReader {
 public:
  // The zone must outlive the reader.
  StampReader(const TimeZone& zone, DateOrder order);

  // False: the text is not a date-time of one meaning, and `out` is as it was; why() says the reason.
  bool read(std::string_view text, Moment& out) { return read_on_last_day(text, out) || read_any(text, out); }
  StampFault why(std::string_view text) const;

  bool read_date(std::string_view text, Day& out);
  StampFault why_date(std::string_view text) const;

 private:
  // A calendar date looked up before, and the offset that holds all day where it is one.
  struct KnownDay {
    std::int32_t date = 0;  // year · 10000 + month · 100 + day; 0: empty
    Day day = no_day;
    std::int32_t offset_s = 0;
  };

  // Of the day of the stamp before, written 2026-11-01T01:30: most stamps of a book are. False: any other.
  [[gnu::always_inline]] bool read_on_last_day(std::string_view text, Moment& out) const {
    if (text.size() != 16 || text[10] != 'T' || text[13] != ':') return false;
    if (!is_same_text(text.substr(0, 10), {last_date_.data(), last_date_size_})) return false;
    const unsigned h1 = digit(text[11]), h2 = digit(text[12]), m1 = digit(text[14]), m2 = digit(text[15]);
    const unsigned hour = 10 * h1 + h2;
    if (h2 > 9 || m2 > 9 || m1 > 5 || h1 > 2 || hour > 23) return false;
    out = last_midnight_ + 60 * static_cast<Moment>(60 * hour + 10 * m1 + m2);
    return true;
  }
  static unsigned digit(char c) { return static_cast<unsigned>(static_cast<unsigned char>(c)) - '0'; }

  bool read_any(std::string_view text, Moment& out);
  const KnownDay* known_day(const CalendarDate& date);

  const TimeZone* zone_;
  DateOrder order_;
  std::vector<KnownDay> known_days_;
  std::array<char, 10> last_date_{};  // as written: the last ISO date without a clock change, once there is one
  std::size_t last_date_size_ = 0;
  Moment last_midnight_ = 0;
};

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "driftwarden/book/time_zone.hpp"
#include "driftwarden/record/moment.hpp"

namespace driftwarden {

// How a date with slashes is read. ISO 8601 dates are read in every book; slashed ones only where the book says how.
enum class DateOrder : std::uint8_t { iso, month_first, day_first };

// What is wrong with a date-time or a date, ready for a diagnostic.
struct StampFault {
  std::string id;  // "time/ambiguous"
  std::string message;
  std::string hint;
};

// Reads the date-times and dates of a book, strictly: 2026-11-01T01:30, with or without seconds and offset (Z, ±hh:mm,
// ±hhmm, ±hh), T or one blank between; slashed 9/21/2026 7:15 in the book's order. No blanks around the text. Without
// an offset the time is the zone's. One thread's: it remembers the days it has seen.
class StampReader {
 public:
  // The zone must outlive the reader.
  StampReader(const TimeZone& zone, DateOrder order);

  // False: the text is not a date-time of one meaning, and `out` is as it was; why() says the reason.
  bool read(std::string_view text, Moment& out);
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

  const KnownDay* known_day(const CalendarDate& date);

  const TimeZone* zone_;
  DateOrder order_;
  std::vector<KnownDay> known_days_;
};

// "2026-11-01T01:30-06:00"; seconds only where they are not 0. In UTC ("…Z") where the zone's offset is no whole
// minute.
// "" for no_moment.
std::string local_text(Moment moment, const TimeZone& zone);
// "2026-11-01"; "" for no_day.
std::string date_text(Day day);
// The calendar day on which the zone's clock showed that moment.
Day local_day(Moment moment, const TimeZone& zone);

}  // namespace driftwarden

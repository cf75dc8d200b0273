// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>

namespace driftwarden {

// A moment on the absolute time line: seconds since 1970-01-01T00:00:00Z (leap seconds not counted).
using Moment = std::int64_t;
inline constexpr Moment no_moment = std::numeric_limits<Moment>::min();

// A calendar day in the book's zone: days since 1970-01-01.
using Day = std::int32_t;
inline constexpr Day no_day = std::numeric_limits<Day>::min();

struct CalendarDate {
  int year = 1970;
  int month = 1;  // 1 to 12
  int day = 1;    // 1 to 31
};

// Proleptic Gregorian calendar. day_from assumes a valid date; is_valid says whether it is one (years 1 to 9999).
Day day_from(CalendarDate date);
CalendarDate date_of(Day day);
bool is_valid(CalendarDate date);

}  // namespace driftwarden

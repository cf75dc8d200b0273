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

inline constexpr std::int64_t seconds_a_day = 86400;
inline constexpr double minutes_a_day = seconds_a_day / 60.0;

struct CalendarDate {
  int year = 1970;
  int month = 1;  // 1 to 12
  int day = 1;    // 1 to 31
};

// Proleptic Gregorian calendar, as Boost.Date_Time reckons it (docs/adr/0005). day_from assumes a valid date; is_valid
// says whether it is one (years 1 to 9999).
Day day_from(CalendarDate date);
CalendarDate date_of(Day day);
bool is_valid(CalendarDate date);
bool is_leap_year(int year);
int days_in_month(int year, int month);
int weekday_of(Day day);  // Sunday is 0; from year 0 on

}  // namespace driftwarden

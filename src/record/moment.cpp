// SPDX-License-Identifier: MIT
#include "record/moment.hpp"

#include <boost/date_time/gregorian_calendar.hpp>
#include <boost/date_time/year_month_day.hpp>

namespace driftwarden {

namespace {

using Calendar =
    boost::date_time::gregorian_calendar_base<boost::date_time::year_month_day_base<int, int, int>, std::int64_t>;

constexpr std::int64_t julian_day_of_1970 = 2440588;  // of 1970-01-01, counted at noon

Calendar::ymd_type on_calendar(CalendarDate date) { return {date.year, date.month, date.day}; }

}  // namespace

Day day_from(CalendarDate date) {
  return static_cast<Day>(Calendar::julian_day_number(on_calendar(date)) - julian_day_of_1970);
}

CalendarDate date_of(Day day) {
  const Calendar::ymd_type date = Calendar::from_julian_day_number(day + julian_day_of_1970);
  return {date.year, date.month, date.day};
}

bool is_leap_year(int year) { return Calendar::is_leap_year(year); }

int days_in_month(int year, int month) { return Calendar::end_of_month_day(year, month); }

int weekday_of(Day day) { return Calendar::day_of_week(on_calendar(date_of(day))); }

bool is_valid(CalendarDate date) {
  if (date.year < 1 || date.year > 9999 || date.month < 1 || date.month > 12) return false;
  return date.day >= 1 && date.day <= days_in_month(date.year, date.month);
}

}  // namespace driftwarden

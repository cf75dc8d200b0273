// SPDX-License-Identifier: MIT
#include "driftwarden/record/moment.hpp"

#include <algorithm>

namespace driftwarden {

namespace {

// Years are taken to begin on 1 March here: the leap day is then the last of its year, and the months before it have
// lengths that follow one rule (31 30 31 30 31, twice, then 31 and the rest: 153 days in five months).
constexpr std::int64_t days_in_year = 365;
constexpr std::int64_t days_in_4_years = 4 * days_in_year + 1;
constexpr std::int64_t days_in_century = 25 * days_in_4_years - 1;
constexpr std::int64_t days_in_400_years = 4 * days_in_century + 1;
constexpr std::int64_t march_of_year_0 = -719468;  // 0000-03-01, counted from 1970-01-01

constexpr std::int64_t days_before_month(std::int64_t months_since_march) { return (153 * months_since_march + 2) / 5; }

constexpr std::int64_t floor_of_quotient(std::int64_t a, std::int64_t b) { return a / b - (a % b < 0 ? 1 : 0); }

bool is_leap(int year) { return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0); }

int days_in_month(int year, int month) {
  if (month == 2) return is_leap(year) ? 29 : 28;
  return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

}  // namespace

Day day_from(CalendarDate date) {
  const std::int64_t year = date.year - (date.month <= 2 ? 1 : 0);
  const std::int64_t months_since_march = (date.month + 9) % 12;
  const std::int64_t leap_days =
      floor_of_quotient(year, 4) - floor_of_quotient(year, 100) + floor_of_quotient(year, 400);
  return static_cast<Day>(march_of_year_0 + year * days_in_year + leap_days + days_before_month(months_since_march) +
                          date.day - 1);
}

CalendarDate date_of(Day day) {
  const std::int64_t since = day - march_of_year_0;
  const std::int64_t cycles = floor_of_quotient(since, days_in_400_years);
  std::int64_t rest = since - cycles * days_in_400_years;
  // The last century of a cycle and the last year of four are a day longer: their last day belongs to them.
  const std::int64_t centuries = std::min<std::int64_t>(rest / days_in_century, 3);
  rest -= centuries * days_in_century;
  const std::int64_t fours = rest / days_in_4_years;
  rest -= fours * days_in_4_years;
  const std::int64_t years = std::min<std::int64_t>(rest / days_in_year, 3);
  rest -= years * days_in_year;
  const std::int64_t months_since_march = (5 * rest + 2) / 153;
  const std::int64_t month = months_since_march < 10 ? months_since_march + 3 : months_since_march - 9;
  const std::int64_t year = 400 * cycles + 100 * centuries + 4 * fours + years + (month <= 2 ? 1 : 0);
  return {static_cast<int>(year), static_cast<int>(month),
          static_cast<int>(rest - days_before_month(months_since_march) + 1)};
}

bool is_valid(CalendarDate date) {
  if (date.year < 1 || date.year > 9999 || date.month < 1 || date.month > 12) return false;
  return date.day >= 1 && date.day <= days_in_month(date.year, date.month);
}

}  // namespace driftwarden

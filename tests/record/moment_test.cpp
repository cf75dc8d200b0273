// SPDX-License-Identifier: MIT
#include "record/moment.hpp"

#include <gtest/gtest.h>

#include <chrono>

namespace driftwarden::moment_test {
namespace {

bool same(CalendarDate a, CalendarDate b) { return a.year == b.year && a.month == b.month && a.day == b.day; }

struct Published {
  CalendarDate date;
  Day day;
};

constexpr Published published[] = {
    {{1970, 1, 1}, 0},          // POSIX.1, "seconds since the Epoch"
    {{2000, 3, 1}, 11017},      // POSIX.1 formula: 30 · 365 + 7 leap days + 60
    {{2001, 9, 9}, 11574},      // the day of 1 000 000 000 s (common knowledge): 1e9 / 86400 = 11574.07
    {{2038, 1, 19}, 24855},     // the day of 2^31 - 1 s: 2147483647 / 86400 = 24855.1
    {{2000, 1, 1}, 10957},      // J2000.0 = JD 2451545.0 at noon (IAU), less JD 2440587.5 of 1970-01-01
    {{1858, 11, 17}, -40587},   // the first day of the Modified Julian Date: JD 2400000.5 less JD 2440587.5
    {{1582, 10, 15}, -141427},  // the first Gregorian day, JD 2299160.5, less JD 2440587.5
    {{1, 1, 1}, -719162},       // ordinal 1 in the proleptic Gregorian calendar, where 1970-01-01 is 719163
    {{9999, 12, 31}, 2932896},  // ordinal 3652059
};

TEST(Moment, DaysAgreeWithPublishedValues) {
  for (const Published& known : published) {
    EXPECT_EQ(day_from(known.date), known.day) << known.date.year;
    EXPECT_TRUE(same(date_of(known.day), known.date)) << known.day;
  }
}

TEST(Moment, EveryDayOfTenThousandYearsAgreesWithTheStandardLibrary) {
  using namespace std::chrono;
  for (Day day = -719162; day <= 2932896; ++day) {
    const year_month_day expected{sys_days{days{day}}};
    const CalendarDate date = date_of(day);
    ASSERT_EQ(date.year, int{expected.year()}) << day;
    ASSERT_EQ(static_cast<unsigned>(date.month), unsigned{expected.month()}) << day;
    ASSERT_EQ(static_cast<unsigned>(date.day), unsigned{expected.day()}) << day;
    ASSERT_TRUE(is_valid(date)) << day;
    ASSERT_EQ(day_from(date), day);
    ASSERT_EQ(static_cast<unsigned>(weekday_of(day)), weekday{sys_days{days{day}}}.c_encoding()) << day;
  }
}

TEST(Moment, MonthsHaveTheLengthsThatTheStandardLibrarySays) {
  using namespace std::chrono;
  for (int year = 1; year <= 9999; ++year) {
    ASSERT_EQ(is_leap_year(year), std::chrono::year{year}.is_leap()) << year;
    for (int month = 1; month <= 12; ++month) {
      const year_month_day_last last{std::chrono::year{year} / month / std::chrono::last};
      ASSERT_EQ(static_cast<unsigned>(days_in_month(year, month)), unsigned{last.day()}) << year << '-' << month;
    }
  }
}

TEST(Moment, DaysBeforeTheFirstYearAreCountedOn) {
  EXPECT_TRUE(same(date_of(-719163), {0, 12, 31}));
  EXPECT_EQ(day_from({0, 12, 31}), -719163);
  EXPECT_TRUE(same(date_of(day_from({-1, 3, 1})), {-1, 3, 1}));
  EXPECT_TRUE(same(date_of(day_from({-400, 2, 29})), {-400, 2, 29}));
}

TEST(Moment, ADateMustBeOnTheCalendar) {
  EXPECT_TRUE(is_valid({2024, 2, 29}));
  EXPECT_TRUE(is_valid({2000, 2, 29}));
  EXPECT_FALSE(is_valid({2023, 2, 29}));
  EXPECT_FALSE(is_valid({1900, 2, 29}));
  EXPECT_FALSE(is_valid({2024, 4, 31}));
  EXPECT_TRUE(is_valid({2024, 12, 31}));
  EXPECT_FALSE(is_valid({2024, 1, 32}));
  EXPECT_FALSE(is_valid({2024, 1, 0}));
  EXPECT_FALSE(is_valid({2024, 0, 1}));
  EXPECT_FALSE(is_valid({2024, 13, 1}));
}

TEST(Moment, AYearHasAtMostFourDigits) {
  EXPECT_TRUE(is_valid({1, 1, 1}));
  EXPECT_TRUE(is_valid({9999, 12, 31}));
  EXPECT_FALSE(is_valid({0, 1, 1}));
  EXPECT_FALSE(is_valid({10000, 1, 1}));
}

}  // namespace
}  // namespace driftwarden::moment_test

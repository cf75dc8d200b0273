// SPDX-License-Identifier: MIT
#include "book/posix_zone.hpp"

#include <gtest/gtest.h>

namespace driftwarden::posix_zone_test {
namespace {

PosixZone zone(std::string_view text) {
  std::string why;
  auto zone = read_posix_zone(text, why);
  EXPECT_TRUE(zone) << text << ": " << why;
  return zone.value_or(PosixZone{});
}

std::string fault(std::string_view text) {
  std::string why;
  EXPECT_FALSE(read_posix_zone(text, why)) << text;
  return why;
}

std::int64_t seconds(int year, int month, int day, int second_of_day = 0) {
  return day_from({year, month, day}) * std::int64_t{86400} + second_of_day;
}

TEST(PosixZone, CountsHoursWestOfUtc) {
  EXPECT_EQ(zone("MST7").offset_s, -7 * 3600);
  EXPECT_EQ(zone("MST+7").offset_s, -7 * 3600);
  EXPECT_EQ(zone("CET-1").offset_s, 3600);
  EXPECT_EQ(zone("UTC0").offset_s, 0);
  EXPECT_EQ(zone("NST3:30").offset_s, -12600);
  EXPECT_EQ(zone("LMT0:01:15").offset_s, -75);
  EXPECT_FALSE(zone("MST7").summer);
}

TEST(PosixZone, ReadsNamesInBrackets) {
  const auto kathmandu = zone("<+0545>-5:45");
  EXPECT_EQ(kathmandu.name, "+0545");
  EXPECT_EQ(kathmandu.offset_s, 20700);
}

TEST(PosixZone, TakesSummerTimeAsOneHourAheadUnlessItIsSaid) {
  EXPECT_EQ(zone("MST7MDT,M3.2.0,M11.1.0").summer->offset_s, -6 * 3600);
  EXPECT_EQ(zone("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0").summer->offset_s, 11 * 3600);
  EXPECT_EQ(zone("MST7MDT,M3.2.0,M11.1.0").summer->name, "MDT");
}

// 2026-03-08 and 2026-11-01: second Sunday of March and first Sunday of November, by any calendar.
TEST(PosixZone, FindsTheWeekdayOfAMonth) {
  const auto summer = *zone("MST7MDT,M3.2.0,M11.1.0").summer;
  EXPECT_EQ(summer.begins.local_second_in(2026), seconds(2026, 3, 8, 7200));
  EXPECT_EQ(summer.ends.local_second_in(2026), seconds(2026, 11, 1, 7200));
}

TEST(PosixZone, TakesWeekFiveAsTheLastOfTheMonth) {
  const auto summer = *zone("CET-1CEST,M3.5.0,M10.5.0/3").summer;
  EXPECT_EQ(summer.begins.local_second_in(2024), seconds(2024, 3, 31, 7200));
  EXPECT_EQ(summer.ends.local_second_in(2024), seconds(2024, 10, 27, 10800));
  EXPECT_EQ(summer.ends.local_second_in(2021), seconds(2021, 10, 31, 10800));
  // February 2026 begins and ends with whole weeks: its last Sunday is the fourth.
  EXPECT_EQ(zone("AAA1BBB,M2.5.0,M11.1.0").summer->begins.local_second_in(2026), seconds(2026, 2, 22, 7200));
}

TEST(PosixZone, CountsJulianDaysWithoutTheLeapDay) {
  const auto summer = *zone("AAA1BBB,J60,J365/25").summer;
  EXPECT_EQ(summer.begins.local_second_in(2024), seconds(2024, 3, 1, 7200));
  EXPECT_EQ(summer.begins.local_second_in(2023), seconds(2023, 3, 1, 7200));
  EXPECT_EQ(summer.ends.local_second_in(2024), seconds(2024, 12, 31, 25 * 3600));
  EXPECT_EQ(zone("AAA1BBB,J59,J365").summer->begins.local_second_in(2024), seconds(2024, 2, 28, 7200));
}

TEST(PosixZone, CountsPlainDaysFromZeroWithTheLeapDay) {
  const auto summer = *zone("AAA1BBB,59,364").summer;
  EXPECT_EQ(summer.begins.local_second_in(2024), seconds(2024, 2, 29, 7200));
  EXPECT_EQ(summer.begins.local_second_in(2023), seconds(2023, 3, 1, 7200));
  EXPECT_EQ(summer.ends.local_second_in(2024), seconds(2024, 12, 30, 7200));
}

// RFC 8536 §3.3.1: hours from -167 to 167.
TEST(PosixZone, ReadsHoursBeyondTheDay) {
  const auto summer = *zone("<-02>2<-01>,M3.5.0/-1,M10.5.0/0").summer;
  EXPECT_EQ(summer.begins.second_of_day, -3600);
  EXPECT_EQ(zone("IST-2IDT,M3.4.4/26,M10.5.0").summer->begins.second_of_day, 26 * 3600);
  EXPECT_EQ(zone("AAA1BBB,0/-167,J365/167").summer->ends.second_of_day, 167 * 3600);
  EXPECT_EQ(zone("AAA1BBB,0/2:30:15,J365").summer->begins.second_of_day, 9015);
}

TEST(PosixZone, SaysWhatIsWrong) {
  EXPECT_EQ(fault(""), "a clock needs a name of three letters or more, as MST or <-07>");
  EXPECT_EQ(fault("MT7"), "a clock needs a name of three letters or more, as MST or <-07>");
  EXPECT_EQ(fault("<+07-7"), "the name '<+07-7' is not closed with '>'");
  EXPECT_EQ(fault("MST"), "after the name the hours west of UTC must follow, as MST7");
  EXPECT_EQ(fault("MST25"), "hours must be 0 to 24");
  EXPECT_EQ(fault("MST24:01"), "hours must be 0 to 24");
  EXPECT_EQ(fault("MST7:60"), "minutes must be 0 to 59");
  EXPECT_EQ(fault("MST7:00:60"), "seconds must be 0 to 59");
  EXPECT_EQ(fault("MST7MDT"), "two clocks need the days on which they change, as MST7MDT,M3.2.0,M11.1.0");
  EXPECT_EQ(fault("MST7MDT,M3.2.0"), "two clock changes are needed, each after a comma");
  EXPECT_EQ(fault("MST7,M3.2.0,M11.1.0"), "a clock needs a name of three letters or more, as MST or <-07>");
  EXPECT_EQ(fault("MST7MDT,M13.2.0,M11.1.0"), "the month of a clock change must be 1 to 12");
  EXPECT_EQ(fault("MST7MDT,M3.6.0,M11.1.0"), "the week of a clock change must be 1 to 5");
  EXPECT_EQ(fault("MST7MDT,M3.2.7,M11.1.0"), "the weekday of a clock change must be 0 to 6");
  EXPECT_EQ(fault("MST7MDT,M3.2,M11.1.0"), "a clock change by weekday is written Mmonth.week.weekday, as M3.2.0");
  EXPECT_EQ(fault("MST7MDT,J0,J365"), "the day of a clock change must be 1 to 365");
  EXPECT_EQ(fault("MST7MDT,0,366"), "the day of a clock change must be 0 to 365");
  EXPECT_EQ(fault("MST7MDT,M3.2.0/168,M11.1.0"), "hours must be 0 to 167");
  EXPECT_EQ(fault("MST7MDT,M3.2.0,M11.1.0 "), "nothing may follow the second clock change");
  EXPECT_EQ(fault("MST99999999999999999999"), "hours must be 0 to 24");
}

}  // namespace
}  // namespace driftwarden::posix_zone_test

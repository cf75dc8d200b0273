// SPDX-License-Identifier: MIT
#include "book/stamp_fault.hpp"

#include <gtest/gtest.h>

namespace driftwarden::stamp_fault_test {
namespace {

const TimeZone& denver() {
  static const TimeZone zone = *TimeZone::named("MST7MDT,M3.2.0,M11.1.0", {});
  return zone;
}

std::string in_words(const StampFault& fault) { return fault.id + ": " + fault.message + "; " + fault.hint; }

std::string why(std::string_view text, DateOrder order = DateOrder::iso) {
  Moment untouched = 17;
  StampReader reader(denver(), order);
  EXPECT_FALSE(reader.read(text, untouched)) << text;
  EXPECT_EQ(untouched, 17);
  return in_words(reader.why(text));
}

std::string why_date(std::string_view text, DateOrder order = DateOrder::iso) {
  Day untouched = 17;
  StampReader reader(denver(), order);
  EXPECT_FALSE(reader.read_date(text, untouched)) << text;
  EXPECT_EQ(untouched, 17);
  return in_words(reader.why_date(text));
}

TEST(StampFault, ShowsBothReadingsOfAnAmbiguousTime) {
  EXPECT_EQ(why("2026-11-01T01:30"),
            "time/ambiguous: '2026-11-01T01:30' happened twice: the clock went back from 02:00 MDT to 01:00 MST; "
            "write 2026-11-01T01:30-06:00 (the first, MDT) or 2026-11-01T01:30-07:00 (the second, MST)");
}

// Offsets with seconds have no place in ISO 8601: that moment is shown in UTC.
TEST(StampFault, ShowsSecondsWhereAClockHadThem) {
  const auto zone = *TimeZone::named("LMT6:59:56MST7,M3.2.0,M11.1.0", {});
  EXPECT_EQ(
      in_words(StampReader(zone, DateOrder::iso).why("2026-03-08T01:59:58")),
      "time/ambiguous: '2026-03-08T01:59:58' happened twice: the clock went back from 02:00 LMT to 01:59:56 MST; write "
      "2026-03-08T08:59:54Z (the first, LMT) or 2026-03-08T01:59:58-07:00 (the second, MST)");
}

TEST(StampFault, ShowsWhatTheClockDidAtAnImpossibleTime) {
  EXPECT_EQ(
      why("2026-03-08T02:30"),
      "time/impossible: '2026-03-08T02:30' never happened: the clock went forward from 02:00 MST to 03:00 "
      "MDT; write 2026-03-08T02:30-07:00 if the clock had not been put forward yet (MST), 2026-03-08T02:30-06:00 if it "
      "had (MDT)");
}

TEST(StampFault, TellsHowToWriteATime) {
  EXPECT_EQ(why("noon"),
            "time/not-a-time: 'noon' is not a date and time; write year-month-day and the time, as 2026-09-21T07:15");
  EXPECT_EQ(why("2026-11-01"),
            "time/date-only: '2026-11-01' is a date without a time of day; write the time too, as 2026-11-01T07:15");
  EXPECT_EQ(why("09/21/2026 07:15"),
            "time/slashes: '09/21/2026 07:15' does not say which number is the month; write year-month-day, as "
            "2026-09-21, or "
            "say dates = \"month first\" or \"day first\" in book.toml");
  EXPECT_EQ(why("9/21/2026 17:15 PM", DateOrder::month_first),
            "time/twelve-hour: '9/21/2026 17:15 PM' has an hour that no half day has; with am or pm hours run from 1 "
            "to 12, without from 00 to 23");
  EXPECT_EQ(
      why("2026-11-01T07:15:30.25"),
      "time/fraction: '2026-11-01T07:15:30.25' has a fraction of a second or minute; times are whole seconds: write "
      "07:15:30");
  EXPECT_EQ(
      why("2026-11-01T24:00"),
      "time/no-such-time: '2026-11-01T24:00' names a time that no clock shows; midnight is 00:00 of the next day");
  EXPECT_EQ(
      why("2026-11-01T07:60"),
      "time/no-such-time: '2026-11-01T07:60' names a time that no clock shows; hours run from 00 to 23, minutes and "
      "seconds from 00 to 59");
  EXPECT_EQ(
      why("2026-11-01T07:15+25:00"),
      "time/no-such-offset: '2026-11-01T07:15+25:00' has an impossible offset from UTC; write Z, or an offset from "
      "-23:59 to +23:59");
}

TEST(StampFault, TellsWhichDayIsMissingFromTheCalendar) {
  EXPECT_EQ(
      why("2026-02-29T07:15"),
      "time/no-such-date: '2026-02-29T07:15' names a day that no calendar has; days of 2026-02 run from 01 to 28");
  EXPECT_EQ(why("2026-13-01T07:15"),
            "time/no-such-date: '2026-13-01T07:15' names a day that no calendar has; months run from 01 to 12");
  EXPECT_EQ(why("0000-01-01T07:15"),
            "time/no-such-date: '0000-01-01T07:15' names a day that no calendar has; years run from 0001 to 9999");
  EXPECT_EQ(why("2026-00-00T00:00"),
            "time/no-such-date: '2026-00-00T00:00' names a day that no calendar has; months run from 01 to 12");
  EXPECT_EQ(why("21/09/2026 07:15", DateOrder::month_first),
            "time/no-such-date: '21/09/2026 07:15' names a day that no calendar has; months run from 01 to 12; this "
            "book reads "
            "month/day/year");
  EXPECT_EQ(
      why_date("9/21/2026", DateOrder::day_first),
      "time/no-such-date: '9/21/2026' names a day that no calendar has; months run from 01 to 12; this book reads "
      "day/month/year");
}

TEST(StampFault, TellsHowToWriteADate) {
  EXPECT_EQ(why_date("soon"), "time/not-a-date: 'soon' is not a date; write year-month-day, as 2026-09-21");
  EXPECT_EQ(why_date("2026-11-01T07:15"),
            "time/not-only-a-date: '2026-11-01T07:15' is more than a date; write the day alone: 2026-11-01");
  EXPECT_EQ(why_date("2026-04-31"),
            "time/no-such-date: '2026-04-31' names a day that no calendar has; days of 2026-04 run from 01 to 30");
  EXPECT_EQ(
      why_date("11/1/2026"),
      "time/slashes: '11/1/2026' does not say which number is the month; write year-month-day, as 2026-09-21, or say "
      "dates = \"month first\" or \"day first\" in book.toml");
}

TEST(StampFault, IsEmptyWhereNothingIsWrong) {
  const StampReader reader(denver(), DateOrder::iso);
  EXPECT_EQ(reader.why("2026-11-01T07:15").id, "");
  EXPECT_EQ(reader.why("2026-11-01T01:30-06:00").id, "");
  EXPECT_EQ(reader.why_date("2026-11-01").id, "");
}

}  // namespace
}  // namespace driftwarden::stamp_fault_test

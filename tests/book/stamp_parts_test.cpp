// SPDX-License-Identifier: MIT
#include "book/stamp_parts.hpp"

#include <gtest/gtest.h>

#include <tuple>

namespace driftwarden::stamp_parts_test {
namespace {

using Numbers = std::tuple<int, int, int, int, int, int>;

Numbers numbers(std::string_view text, DateOrder order = DateOrder::iso) {
  StampParts p;
  EXPECT_EQ(take_stamp(text, order, p), Misfit::none) << text;
  return {p.date.year, p.date.month, p.date.day, p.hour, p.minute, p.second};
}

Misfit misfit(std::string_view text, DateOrder order = DateOrder::iso) {
  StampParts parts;
  return take_stamp(text, order, parts);
}

std::int32_t offset(std::string_view text) {
  StampParts parts;
  EXPECT_EQ(take_stamp(text, DateOrder::iso, parts), Misfit::none) << text;
  EXPECT_TRUE(parts.has_offset) << text;
  return parts.offset_s;
}

TEST(StampParts, AreTakenFromIsoDateTimes) {
  EXPECT_EQ(numbers("2026-11-01T01:30"), Numbers(2026, 11, 1, 1, 30, 0));
  EXPECT_EQ(numbers("2026-11-01 01:30"), Numbers(2026, 11, 1, 1, 30, 0));
  EXPECT_EQ(numbers("2026-11-01T23:59:58"), Numbers(2026, 11, 1, 23, 59, 58));
  StampParts parts;
  take_stamp("2026-11-01T01:30", DateOrder::iso, parts);
  EXPECT_FALSE(parts.has_offset);
}

// ISO 8601-1:2019, 5.3.4: Z, and the difference from UTC in hours, or hours and minutes, with a colon or without.
TEST(StampParts, IncludeTheOffset) {
  EXPECT_EQ(offset("2026-11-01T01:30Z"), 0);
  EXPECT_EQ(offset("2026-11-01T01:30:00Z"), 0);
  EXPECT_EQ(offset("2026-11-01T01:30-06:00"), -21600);
  EXPECT_EQ(offset("2026-11-01T01:30:15-0600"), -21600);
  EXPECT_EQ(offset("2026-11-01T01:30-06"), -21600);
  EXPECT_EQ(offset("2026-11-01 01:30+05:45"), 20700);
  EXPECT_EQ(offset("2026-11-01T01:30-00:30"), -1800);
  EXPECT_EQ(offset("2026-11-01T01:30+23:59"), 86340);
}

TEST(StampParts, FollowTheBooksOrderOfSlashedDates) {
  EXPECT_EQ(numbers("09/21/2026 07:15", DateOrder::month_first), Numbers(2026, 9, 21, 7, 15, 0));
  EXPECT_EQ(numbers("21/09/2026 07:15", DateOrder::day_first), Numbers(2026, 9, 21, 7, 15, 0));
  EXPECT_EQ(numbers("9/1/2026 7:15:30", DateOrder::month_first), Numbers(2026, 9, 1, 7, 15, 30));
  EXPECT_EQ(numbers("9/1/2026 7:15:30", DateOrder::day_first), Numbers(2026, 1, 9, 7, 15, 30));
  EXPECT_EQ(numbers("2026-09-21T07:15", DateOrder::day_first), Numbers(2026, 9, 21, 7, 15, 0));
}

TEST(StampParts, TakeDatesThatBeginWithTheirYearInAnyOrder) {
  for (const DateOrder order : {DateOrder::iso, DateOrder::month_first, DateOrder::day_first}) {
    EXPECT_EQ(numbers("2026/11/01 01:30", order), Numbers(2026, 11, 1, 1, 30, 0));
    EXPECT_EQ(numbers("2026.1.9 6:16", order), Numbers(2026, 1, 9, 6, 16, 0));
  }
}

TEST(StampParts, TakeDotsAndHyphensInTheOrderThatWasSaid) {
  EXPECT_EQ(numbers("3.11.2026 6:16", DateOrder::day_first), Numbers(2026, 11, 3, 6, 16, 0));
  EXPECT_EQ(numbers("11.3.2026 6:16", DateOrder::month_first), Numbers(2026, 11, 3, 6, 16, 0));
  EXPECT_EQ(numbers("03-11-2026 06:16", DateOrder::day_first), Numbers(2026, 11, 3, 6, 16, 0));
  EXPECT_EQ(misfit("26-11-03T06:16", DateOrder::day_first), Misfit::shape) << "it may begin with its year";
  EXPECT_EQ(misfit("3.11/2026 6:16", DateOrder::day_first), Misfit::shape);
}

TEST(StampParts, TakeYearsOfTwoDigitsFrom1969To2068) {
  EXPECT_EQ(numbers("03.11.26 06:16", DateOrder::day_first), Numbers(2026, 11, 3, 6, 16, 0));
  EXPECT_EQ(numbers("3/11/68 6:16", DateOrder::day_first), Numbers(2068, 11, 3, 6, 16, 0));
  EXPECT_EQ(numbers("3/11/69 6:16", DateOrder::day_first), Numbers(1969, 11, 3, 6, 16, 0));
  EXPECT_EQ(misfit("03.11.26 06:16"), Misfit::slashes) << "nothing says which number is the month";
}

TEST(StampParts, CountHoursByHalfDaysWhereTheTextSaysWhich) {
  EXPECT_EQ(numbers("2026-11-03 6:16 pm"), Numbers(2026, 11, 3, 18, 16, 0));
  EXPECT_EQ(numbers("2026-11-03 12:05 AM"), Numbers(2026, 11, 3, 0, 5, 0)) << "midnight";
  EXPECT_EQ(numbers("2026-11-03 12:05 p.m."), Numbers(2026, 11, 3, 12, 5, 0)) << "noon";
  EXPECT_EQ(numbers("9/21/2026 7:15:30am", DateOrder::month_first), Numbers(2026, 9, 21, 7, 15, 30));
  for (const auto* text : {"2026-11-03 13:15 pm", "2026-11-03 0:15 am"}) EXPECT_EQ(misfit(text), Misfit::twelve_hour);
  for (const auto* text : {"2026-11-03 1:15 pmx", "2026-11-03 1:15 p", "2026-11-03 1:15 pm Z"})
    EXPECT_EQ(misfit(text), Misfit::shape) << text;
}

TEST(StampParts, TakeAFractionOfZeros) {
  EXPECT_EQ(numbers("2026-11-01T01:30:15.000"), Numbers(2026, 11, 1, 1, 30, 15));
  EXPECT_EQ(offset("2026-11-01T01:30:15,0-06:00"), -21600);
}

TEST(StampParts, TellWhatDoesNotFit) {
  EXPECT_EQ(misfit("2026-11-01"), Misfit::date_only);
  EXPECT_EQ(misfit("09/21/2026 07:15"), Misfit::slashes);
  EXPECT_EQ(misfit("09/21/2026", DateOrder::month_first), Misfit::date_only);
  EXPECT_EQ(misfit("2026-11-01T01:30:15.25"), Misfit::fraction);
  EXPECT_EQ(misfit("2026-11-01T01:30:15,001Z"), Misfit::fraction);
  EXPECT_EQ(misfit("2026-11-01T01:30.0"), Misfit::fraction);
  for (const auto* text : {"2026-11-01T24:00", "2026-11-01T01:60", "2026-11-01T23:59:60", "2026-11-01T99:00"})
    EXPECT_EQ(misfit(text), Misfit::no_such_time) << text;
  for (const auto* text : {"2026-11-01T01:30+24:00", "2026-11-01T01:30-06:60", "2026-11-01T01:30+99"})
    EXPECT_EQ(misfit(text), Misfit::no_such_offset) << text;
}

TEST(StampParts, RefuseEveryOtherShape) {
  for (const auto* text : {"",
                           "T",
                           "2026",
                           "2026-11",
                           "2026-11-01T",
                           "2026-11-01T1",
                           "2026-11-01T01",
                           "2026-11-01T01:",
                           "2026-11-01T01:3",
                           "2026-11-01T01:30:",
                           "2026-11-01T01:30:1",
                           "2026-1-01T01:30",
                           "2026-11-1T01:30",
                           "2026-11-01  01:30",
                           " 2026-11-01T01:30",
                           "2026-11-01T01:30 ",
                           "2026-11-01t01:30",
                           "2026-11-01T01:30z",
                           "2026-11-01T01:30 -06:00",
                           "2026-11-01T01:30-",
                           "2026-11-01T01:30-6",
                           "2026-11-01T01:30-06:",
                           "2026-11-01T01:30-06:0",
                           "2026-11-01T01:30-060",
                           "2026-11-01T01:30-06:00Z",
                           "2026-11-01T01:30ZZ",
                           "2026-11-01T01:30:15.",
                           "20261101T0130",
                           "+2026-11-01T01:30",
                           "-2026-11-01T01:30",
                           "2026-W44-7T01:30",
                           "2026-11-01T01-30",
                           "2026-11-01T-1:30",
                           "2026-11-01T01:30\xe2\x88\x92"
                           "06:00"})
    EXPECT_EQ(misfit(text), Misfit::shape) << text;
  for (const auto* text : {"/", "9/", "9/21/", "9/21/2", "9/21/20266 7:15", "999/1/2026 7:15", "9/21/2026 007:15",
                           "9/21/2026 7", "9/21/202 7:15"})
    EXPECT_NE(misfit(text, DateOrder::month_first), Misfit::none) << text;
}

TEST(StampParts, OfADateEndWithTheDay) {
  StampParts parts;
  EXPECT_EQ(take_date("2026-11-01", DateOrder::iso, parts), Misfit::none);
  EXPECT_EQ(take_date("2026-11-01T01:30", DateOrder::iso, parts), Misfit::not_only_date);
  EXPECT_EQ(take_date("2026-11-01x", DateOrder::iso, parts), Misfit::shape);
  EXPECT_EQ(take_date("1/11/2026", DateOrder::iso, parts), Misfit::slashes);
}

}  // namespace
}  // namespace driftwarden::stamp_parts_test

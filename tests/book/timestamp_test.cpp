// SPDX-License-Identifier: MIT
#include "book/timestamp.hpp"
#include "book/stamp_text.hpp"

#include <gtest/gtest.h>

#include <random>

namespace driftwarden::timestamp_test {
namespace {

const TimeZone& denver() {
  static const TimeZone zone = *TimeZone::named("America/Denver", {});
  return zone;
}

Moment read(std::string_view text, DateOrder order = DateOrder::iso) {
  StampReader reader(denver(), order);
  Moment moment = no_moment;
  EXPECT_TRUE(reader.read(text, moment)) << text << ": " << reader.why(text).message;
  return moment;
}

Moment utc(int year, int month, int day, int h, int m, int s = 0) {
  return day_from({year, month, day}) * Moment{86400} + h * 3600 + m * 60 + s;
}

TEST(StampReader, ReadsTheZonesClock) {
  EXPECT_EQ(read("2026-06-01T07:15"), utc(2026, 6, 1, 13, 15));
  EXPECT_EQ(read("2026-12-01T07:15"), utc(2026, 12, 1, 14, 15));
  EXPECT_EQ(read("2026-12-01 07:15:42"), utc(2026, 12, 1, 14, 15, 42));
  EXPECT_EQ(read("2026-12-31T23:00"), utc(2027, 1, 1, 6, 0));
}

TEST(StampReader, ReadsAWrittenOffsetInsteadOfTheZones) {
  EXPECT_EQ(read("2026-11-01T01:30-06:00"), utc(2026, 11, 1, 7, 30));
  EXPECT_EQ(read("2026-11-01T01:30-07:00"), utc(2026, 11, 1, 8, 30));
  EXPECT_EQ(read("2026-06-01T07:15Z"), utc(2026, 6, 1, 7, 15));
  EXPECT_EQ(read("2026-03-08T02:30-07:00"), utc(2026, 3, 8, 9, 30));
}

TEST(StampReader, ReadsSlashedDatesInTheBooksOrder) {
  EXPECT_EQ(read("09/01/2026 07:15", DateOrder::month_first), utc(2026, 9, 1, 13, 15));
  EXPECT_EQ(read("09/01/2026 07:15", DateOrder::day_first), utc(2026, 1, 9, 14, 15));
}

TEST(StampReader, ReadsTheHoursAroundAClockChange) {
  EXPECT_EQ(read("2026-03-08T01:59"), utc(2026, 3, 8, 8, 59));
  EXPECT_EQ(read("2026-03-08T03:00"), utc(2026, 3, 8, 9, 0));
  EXPECT_EQ(read("2026-11-01T00:59"), utc(2026, 11, 1, 6, 59));
  EXPECT_EQ(read("2026-11-01T02:00"), utc(2026, 11, 1, 9, 0));
}

// The clock changes of 2024 in two countries: dates and hours as in time_zone_test.cpp.
TEST(StampReader, RefusesTimesWithTwoMeaningsOrNone) {
  const auto id = [](std::string_view zone_name, std::string_view text) {
    const auto zone = *TimeZone::named(zone_name, {});
    StampReader reader(zone, DateOrder::iso);
    Moment moment = 0;
    EXPECT_FALSE(reader.read(text, moment)) << text;
    return reader.why(text).id;
  };
  EXPECT_EQ(id("Europe/London", "2024-03-31T01:30"), "time/impossible");
  EXPECT_EQ(id("Europe/London", "2024-10-27T01:30"), "time/ambiguous");
  EXPECT_EQ(id("America/New_York", "2024-03-10T02:30"), "time/impossible");
  EXPECT_EQ(id("America/New_York", "2024-11-03T01:30"), "time/ambiguous");
}

TEST(StampReader, RemembersNoDayThatIsNone) {
  StampReader reader(denver(), DateOrder::iso);
  Moment moment = 17;
  for (int round = 0; round < 2; ++round) {
    EXPECT_FALSE(reader.read("2026-02-30T07:15", moment));
    EXPECT_FALSE(reader.read("0000-00-00T00:00", moment));
    EXPECT_EQ(moment, 17);
  }
}

// Days that share a place in the reader's memory, and clock changes among them, in random order.
TEST(StampReader, ReadsAlikeInAnyOrder) {
  StampReader reader(denver(), DateOrder::iso);
  std::mt19937_64 random(20261125);
  for (int i = 0; i < 100'000; ++i) {
    const auto day = static_cast<Day>(random() % 60'000);
    const auto minute = static_cast<std::int32_t>(random() % 1440);
    char clock[16];
    std::snprintf(clock, sizeof clock, "T%02d:%02d", minute / 60, minute % 60);
    const auto local = denver().offset_of_local(day * std::int64_t{86400} + minute * 60);
    Moment moment = no_moment;
    const bool is_read = reader.read(date_text(day) + clock, moment);
    ASSERT_EQ(is_read, local.kind == TimeZone::Local::Kind::unique) << date_text(day) << clock;
    if (is_read) {
      ASSERT_EQ(moment, day * Moment{86400} + minute * 60 - local.offset_s) << date_text(day) << clock;
    }
  }
}

// read() and why() must never disagree, whatever the text.
TEST(StampReader, HasAReasonForEveryRefusalAndNoneOtherwise) {
  std::mt19937_64 random(20261125);
  const std::string_view letters = "0123456789-/:T Z+.,pm";
  for (const DateOrder order : {DateOrder::iso, DateOrder::month_first, DateOrder::day_first}) {
    StampReader reader(denver(), order);
    int good = 0;
    for (int i = 0; i < 100'000; ++i) {
      std::string text = i % 2 == 0 ? "2026-11-01T01:30:00-06:00" : "11/01/2026 01:30:00";
      text.resize(text.size() - random() % 12);
      for (std::uint64_t changes = random() % 3; changes > 0; --changes)
        text[random() % text.size()] = letters[random() % letters.size()];
      Moment moment = no_moment;
      Day day = no_day;
      ASSERT_EQ(reader.read(text, moment), reader.why(text).id.empty()) << text;
      ASSERT_EQ(reader.read_date(text, day), reader.why_date(text).id.empty()) << text;
      good += moment == no_moment ? 0 : 1;
    }
    EXPECT_GT(good, 1000);
  }
}

TEST(StampReader, ReadsDates) {
  StampReader reader(denver(), DateOrder::day_first);
  Day day = no_day;
  EXPECT_TRUE(reader.read_date("2026-11-01", day));
  EXPECT_EQ(day, day_from({2026, 11, 1}));
  EXPECT_TRUE(reader.read_date("1/12/2026", day));
  EXPECT_EQ(day, day_from({2026, 12, 1}));
  EXPECT_TRUE(reader.read_date("2024-02-29", day));
  EXPECT_FALSE(reader.read_date("2023-02-29", day));
}

}  // namespace
}  // namespace driftwarden::timestamp_test

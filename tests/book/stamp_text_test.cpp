// SPDX-License-Identifier: MIT
#include "book/stamp_text.hpp"

#include <gtest/gtest.h>

#include "book/timestamp.hpp"

namespace driftwarden::stamp_text_test {
namespace {

TimeZone zone(std::string_view name) { return *TimeZone::named(name, {}); }

constexpr Moment first_half_past_one = 1793518200;  // 2026-11-01T07:30Z

TEST(StampText, ShowsAMomentOnTheZonesClock) {
  const auto denver = zone("MST7MDT,M3.2.0,M11.1.0");
  EXPECT_EQ(local_text(first_half_past_one, denver), "2026-11-01T01:30-06:00");
  EXPECT_EQ(local_text(first_half_past_one + 3600, denver), "2026-11-01T01:30-07:00");
  EXPECT_EQ(local_text(first_half_past_one + 7, denver), "2026-11-01T01:30:07-06:00");
  EXPECT_EQ(local_text(first_half_past_one, zone("<+0545>-5:45")), "2026-11-01T13:15+05:45");
  EXPECT_EQ(local_text(0, TimeZone::utc()), "1970-01-01T00:00+00:00");
  EXPECT_EQ(local_text(-1, TimeZone::utc()), "1969-12-31T23:59:59+00:00");
  EXPECT_EQ(local_text(no_moment, denver), "");
}

TEST(StampText, TurnsToUtcWhereAnOffsetHasSeconds) {
  EXPECT_EQ(local_text(0, zone("LMT6:59:56")), "1970-01-01T00:00Z");
  EXPECT_EQ(local_text(0, zone("FAR-24")), "1970-01-01T00:00Z");
}

TEST(StampText, ReadsBackToTheSameMoment) {
  for (const auto* name : {"MST7MDT,M3.2.0,M11.1.0", "<+0545>-5:45", "LMT6:59:56", "FAR-24", "FAR23:59"}) {
    const auto clock = zone(name);
    StampReader reader(clock, DateOrder::iso);
    for (Moment m = first_half_past_one - 200'000; m < first_half_past_one + 200'000; m += 613) {
      Moment back = no_moment;
      ASSERT_TRUE(reader.read(local_text(m, clock), back)) << local_text(m, clock);
      ASSERT_EQ(back, m);
    }
  }
}

TEST(StampText, ShowsADay) {
  EXPECT_EQ(date_text(0), "1970-01-01");
  EXPECT_EQ(date_text(-1), "1969-12-31");
  EXPECT_EQ(date_text(day_from({812, 3, 4})), "0812-03-04");
  EXPECT_EQ(date_text(no_day), "");
}

TEST(StampText, FindsTheDayOnTheZonesClock) {
  const auto denver = zone("MST7MDT,M3.2.0,M11.1.0");
  const Moment midnight_utc = day_from({2026, 6, 1}) * Moment{86400};
  EXPECT_EQ(local_day(midnight_utc, denver), day_from({2026, 5, 31}));
  EXPECT_EQ(local_day(midnight_utc + 6 * 3600, denver), day_from({2026, 6, 1}));
  EXPECT_EQ(local_day(midnight_utc + 6 * 3600 - 1, denver), day_from({2026, 5, 31}));
  EXPECT_EQ(local_day(-1, TimeZone::utc()), -1);
  EXPECT_EQ(local_day(no_moment, denver), no_day);
}

// input: every quarter of an hour around both changes of a year's clock, forwards and in no order.
TEST(LocalDays, AreTheDaysOfEachMomentByItself) {
  const TimeZone denver = *TimeZone::named("MST7MDT,M3.2.0,M11.1.0", {});
  LocalDays days(denver);
  std::vector<Moment> moments;
  for (const CalendarDate change : {CalendarDate{2026, 3, 8}, CalendarDate{2026, 11, 1}}) {
    for (int quarter = -200; quarter < 300; ++quarter)
      moments.push_back(day_from(change) * seconds_a_day + 900 * quarter);
  }
  const std::size_t count = moments.size();
  for (std::size_t i = 0; i < count; ++i) moments.push_back(moments[i * 379 % count]);
  for (const Moment moment : moments) ASSERT_EQ(days.day_of(moment), local_day(moment, denver)) << moment;
  EXPECT_EQ(days.day_of(no_moment), no_day);
}

}  // namespace
}  // namespace driftwarden::stamp_text_test

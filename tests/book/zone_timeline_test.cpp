// SPDX-License-Identifier: MIT
#include "book/zone_timeline.hpp"

#include <gtest/gtest.h>

#include "book/zone_bytes.hpp"

namespace driftwarden::zone_timeline_test {
namespace {

constexpr Moment four_centuries = 146097 * Moment{86400};

ZoneTimeline of_rule(std::string_view text) {
  std::string why;
  return ZoneTimeline(*read_posix_zone(text, why));
}

ZoneTimeline of_file(const ZoneBytes& bytes) {
  std::string why;
  return ZoneTimeline(*read_zone_file(bytes.text(), why));
}

Moment utc(int year, int month, int day, int hour) {
  return day_from({year, month, day}) * Moment{86400} + hour * Moment{3600};
}

TEST(ZoneTimeline, ChangesAtTheVerySecond) {
  const auto denver = of_rule("MST7MDT,M3.2.0,M11.1.0");
  EXPECT_EQ(denver.setting_at(utc(2026, 3, 8, 9) - 1).name, "MST");
  EXPECT_EQ(denver.setting_at(utc(2026, 3, 8, 9)).name, "MDT");
  EXPECT_EQ(denver.setting_at(utc(2026, 11, 1, 8) - 1).name, "MDT");
  EXPECT_EQ(denver.setting_at(utc(2026, 11, 1, 8)).name, "MST");
}

TEST(ZoneTimeline, KeepsARuleForAllTime) {
  const auto denver = of_rule("MST7MDT,M3.2.0,M11.1.0");
  EXPECT_EQ(denver.setting_at(utc(2400, 7, 1, 0)).name, "MDT");
  EXPECT_EQ(denver.setting_at(utc(9999, 7, 1, 0)).name, "MDT");
  EXPECT_EQ(denver.setting_at(utc(1, 7, 1, 0)).name, "MDT");
  for (Moment m = utc(1971, 1, 1, 0); m < utc(1973, 1, 1, 0); m += 1800) {
    for (const Moment cycles : {-4, 1, 5})
      ASSERT_EQ(denver.setting_at(m).name, denver.setting_at(m + cycles * four_centuries).name) << m;
  }
}

TEST(ZoneTimeline, LeavesAFilesPastAloneAndRepeatsItsRule) {
  const auto zone = of_file(made_up_zone());
  EXPECT_EQ(zone.setting_at(utc(1900, 7, 1, 0)).name, "AAA");
  EXPECT_EQ(zone.setting_at(utc(2019, 7, 1, 0)).name, "AAA");
  EXPECT_EQ(zone.setting_at(utc(2020, 7, 1, 0)).name, "BBB");
  EXPECT_EQ(zone.setting_at(utc(2021, 7, 1, 0)).name, "BBB");
  EXPECT_EQ(zone.setting_at(utc(2021, 12, 1, 0)).name, "AAA");
  EXPECT_EQ(zone.setting_at(utc(4000, 7, 1, 0)).name, "BBB");
}

TEST(ZoneTimeline, StaysAtTheLastSettingWithoutARule) {
  auto bytes = made_up_zone();
  bytes.rule.clear();
  EXPECT_EQ(of_file(bytes).setting_at(utc(2021, 7, 1, 0)).name, "AAA");
}

// RFC 8536 §3.3: "EST5EDT,0/0,J365/25" is daylight saving time all year.
TEST(ZoneTimeline, TakesSummerTimeAllYear) {
  const auto zone = of_rule("EST5EDT,0/0,J365/25");
  for (Moment m = utc(2023, 12, 25, 0); m < utc(2025, 1, 5, 0); m += 1800)
    ASSERT_EQ(zone.setting_at(m).name, "EDT") << m;
  EXPECT_EQ(zone.spans(utc(2023, 12, 31, 0), utc(2024, 1, 2, 0)).size(), 1U);
}

TEST(ZoneTimeline, CutsTimeIntoSpansWithoutGaps) {
  const auto denver = of_rule("MST7MDT,M3.2.0,M11.1.0");
  const auto spans = denver.spans(utc(2026, 1, 1, 0), utc(2026, 12, 31, 0));
  ASSERT_EQ(spans.size(), 3U);
  EXPECT_EQ(spans[0].begin, utc(2026, 1, 1, 0));
  EXPECT_EQ(spans[0].end, utc(2026, 3, 8, 9));
  EXPECT_EQ(spans[1].begin, utc(2026, 3, 8, 9));
  EXPECT_EQ(spans[1].local_end(), utc(2026, 11, 1, 2));
  EXPECT_EQ(spans[2].local_begin(), utc(2026, 11, 1, 1));
  EXPECT_EQ(spans[2].end, utc(2026, 12, 31, 0));
  // Across the seam of the years written out.
  const auto later = denver.spans(utc(2026, 1, 1, 0) + four_centuries, utc(2026, 12, 31, 0) + four_centuries);
  ASSERT_EQ(later.size(), 3U);
  EXPECT_EQ(later[1].end, utc(2026, 11, 1, 8) + four_centuries);
}

}  // namespace
}  // namespace driftwarden::zone_timeline_test

// SPDX-License-Identifier: MIT
#include "book/zone_file.hpp"

#include <gtest/gtest.h>

#include <random>

#include "book/zone_bytes.hpp"
#include "book/zone_timeline.hpp"

namespace driftwarden::zone_file_test {
namespace {

std::string fault(const std::string& bytes) {
  std::string why;
  EXPECT_FALSE(read_zone_file(bytes, why));
  return why;
}

TEST(ZoneFile, ReadsSettingsStartsAndTheRule) {
  std::string why;
  const auto zone = read_zone_file(made_up_zone().text(), why);
  ASSERT_TRUE(zone) << why;
  ASSERT_EQ(zone->settings.size(), 2U);
  EXPECT_EQ(zone->settings[1].offset_s, -14400);
  EXPECT_EQ(zone->settings[1].name, "BBB");
  ASSERT_EQ(zone->starts.size(), 2U);
  EXPECT_EQ(zone->starts[0].from, 1583650800);
  EXPECT_EQ(zone->starts[0].setting, 1);
  ASSERT_TRUE(zone->rule);
  EXPECT_EQ(zone->rule->name, "AAA");
}

TEST(ZoneFile, ReadsTheFirstVersionWithoutARule) {
  auto bytes = made_up_zone();
  bytes.version = '\0';
  bytes.starts[0].first = -1583650800;
  std::string why;
  const auto zone = read_zone_file(bytes.text(), why);
  ASSERT_TRUE(zone) << why;
  EXPECT_EQ(zone->starts[0].from, -1583650800);
  EXPECT_FALSE(zone->rule);
}

// RFC 8536 §3.3: an empty rule is allowed.
TEST(ZoneFile, ReadsAnEmptyRule) {
  auto bytes = made_up_zone();
  bytes.rule.clear();
  std::string why;
  const auto zone = read_zone_file(bytes.text(), why);
  ASSERT_TRUE(zone) << why;
  EXPECT_FALSE(zone->rule);
}

TEST(ZoneFile, RefusesEveryFileThatIsCutShort) {
  const std::string whole = made_up_zone().text();
  for (std::size_t size = 0; size < whole.size(); ++size) EXPECT_NE(fault(whole.substr(0, size)), "") << size;
}

TEST(ZoneFile, SaysWhatIsWrong) {
  const auto with = [](auto change) {
    auto bytes = made_up_zone();
    change(bytes);
    return bytes.text();
  };
  EXPECT_EQ(fault("A text of more than forty-four bytes, not a zone."), "it is not a zone file");
  EXPECT_EQ(fault(""), "it is not a zone file");
  EXPECT_EQ(fault("TZif2"), "it is cut short");
  EXPECT_EQ(fault(with([](auto& b) { b.version = '1'; })), "its version is unknown");
  EXPECT_EQ(fault(with([](auto& b) { b.leap_seconds = 1; })), "it counts leap seconds");
  EXPECT_EQ(fault(with([](auto& b) { b.settings.clear(); })), "it names no clock");
  EXPECT_EQ(fault(with([](auto& b) { b.starts[1].first = b.starts[0].first; })), "its clock changes are not in order");
  EXPECT_EQ(fault(with([](auto& b) { b.starts[1].second = 2; })), "a clock change is impossible");
  EXPECT_EQ(fault(with([](auto& b) { b.starts[0].first = INT64_MIN; })), "a clock change is impossible");
  EXPECT_EQ(fault(with([](auto& b) { b.settings[0].first = -90000; })), "an offset from UTC is impossible");
  EXPECT_EQ(fault(with([](auto& b) { b.settings[0].first = 93600; })), "an offset from UTC is impossible");
  EXPECT_EQ(fault(with([](auto& b) { b.settings[1].second = 8; })), "the name of a clock is cut short");
  EXPECT_EQ(fault(with([](auto& b) { b.names[7] = 'B'; })), "the name of a clock is cut short");
  EXPECT_EQ(fault(with([](auto& b) { b.names[1] = '\x1b'; })), "the name of a clock is damaged");
  EXPECT_EQ(
      fault(with([](auto& b) { b.rule = "AAA5BBB"; })),
      "its rule for the future is damaged: two clocks need the days on which they change, as MST7MDT,M3.2.0,M11.1.0");
}

TEST(ZoneFile, RefusesImpossibleCounts) {
  const std::string good = made_up_zone().text();
  for (const std::size_t count_at : {20U, 24U, 28U, 32U, 36U, 40U}) {
    std::string bytes = good;
    bytes.replace(count_at, 4, "\xff\xff\xff\xff");
    EXPECT_EQ(fault(bytes), "its counts are impossible") << count_at;
  }
}

// Whatever a damaged file says, it is refused or gives some offset for every moment: nothing is read past its end.
TEST(ZoneFile, SurvivesDamageAnywhere) {
  const std::string good = made_up_zone().text();
  std::mt19937_64 random(20261125);
  int read = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string bytes = good;
    for (std::uint64_t flips = 1 + random() % 4; flips > 0; --flips)
      bytes[random() % bytes.size()] = static_cast<char>(random());
    std::string why;
    auto zone = read_zone_file(bytes, why);
    EXPECT_EQ(zone.has_value(), why.empty());
    if (!zone || ++read > 500) continue;
    const ZoneTimeline timeline(*std::move(zone));
    for (const Moment m : {INT64_MIN + 1, Moment{0}, Moment{1583650800}, Moment{99'999'999'999}, INT64_MAX})
      EXPECT_LT(std::abs(timeline.setting_at(m).offset_s), 26 * 3600);
  }
  EXPECT_GT(read, 100);
}

}  // namespace
}  // namespace driftwarden::zone_file_test

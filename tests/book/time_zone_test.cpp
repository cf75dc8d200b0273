// SPDX-License-Identifier: MIT
#include "book/time_zone.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "book/scratch_folder.hpp"
#include "book/zone_bytes.hpp"

namespace driftwarden::time_zone_test {
namespace {

using Kind = TimeZone::Local::Kind;

constexpr std::int32_t hour = 3600;

TimeZone zone(std::string_view name) {
  auto zone = TimeZone::named(name, {});
  EXPECT_TRUE(zone) << name << ": " << (zone ? "" : to_text(zone.faults().front()));
  return zone ? *zone : TimeZone::utc();
}

std::string fault(std::string_view name) {
  const auto zone = TimeZone::named(name, {"book.toml", 3, 13});
  EXPECT_FALSE(zone) << name;
  return zone ? std::string() : to_text(zone.faults().front());
}

// Seconds of a clock reading, as if it were UTC.
std::int64_t at(int year, int month, int day, int h = 0, int m = 0, int s = 0) {
  return day_from({year, month, day}) * std::int64_t{86400} + h * 3600 + m * 60 + s;
}

void expect(const TimeZone::Local& local, Kind kind, std::int32_t offset_s, std::int32_t other_offset_s) {
  EXPECT_EQ(local.kind, kind);
  EXPECT_EQ(local.offset_s, offset_s);
  EXPECT_EQ(local.other_offset_s, other_offset_s);
}

// Dates and hours of the changes: US Energy Policy Act of 2005, section 110 (second Sunday in March, first in November,
// 2 a.m. local); Directive 2000/84/EC and the UK's Summer Time Order 2002 (last Sundays of March and October, 01:00
// UTC).
TEST(TimeZone, KnowsTheHourThatTheSpringChangeSkips) {
  expect(zone("America/Denver").offset_of_local(at(2026, 3, 8, 2, 30)), Kind::impossible, -7 * hour, -6 * hour);
  expect(zone("America/New_York").offset_of_local(at(2024, 3, 10, 2, 30)), Kind::impossible, -5 * hour, -4 * hour);
  expect(zone("Europe/London").offset_of_local(at(2024, 3, 31, 1, 30)), Kind::impossible, 0, hour);
}

TEST(TimeZone, KnowsTheHourThatTheAutumnChangeRepeats) {
  expect(zone("America/Denver").offset_of_local(at(2026, 11, 1, 1, 30)), Kind::ambiguous, -6 * hour, -7 * hour);
  expect(zone("America/New_York").offset_of_local(at(2024, 11, 3, 1, 30)), Kind::ambiguous, -4 * hour, -5 * hour);
  expect(zone("Europe/London").offset_of_local(at(2024, 10, 27, 1, 30)), Kind::ambiguous, hour, 0);
}

TEST(TimeZone, DrawsTheEdgesOfAChangeToTheSecond) {
  const auto denver = zone("America/Denver");
  expect(denver.offset_of_local(at(2026, 3, 8, 1, 59, 59)), Kind::unique, -7 * hour, -7 * hour);
  expect(denver.offset_of_local(at(2026, 3, 8, 2, 0, 0)), Kind::impossible, -7 * hour, -6 * hour);
  expect(denver.offset_of_local(at(2026, 3, 8, 2, 59, 59)), Kind::impossible, -7 * hour, -6 * hour);
  expect(denver.offset_of_local(at(2026, 3, 8, 3, 0, 0)), Kind::unique, -6 * hour, -6 * hour);
  expect(denver.offset_of_local(at(2026, 11, 1, 0, 59, 59)), Kind::unique, -6 * hour, -6 * hour);
  expect(denver.offset_of_local(at(2026, 11, 1, 1, 0, 0)), Kind::ambiguous, -6 * hour, -7 * hour);
  expect(denver.offset_of_local(at(2026, 11, 1, 1, 59, 59)), Kind::ambiguous, -6 * hour, -7 * hour);
  expect(denver.offset_of_local(at(2026, 11, 1, 2, 0, 0)), Kind::unique, -7 * hour, -7 * hour);
  EXPECT_EQ(denver.offset_of_local(at(2026, 11, 1, 1, 30)).change, at(2026, 11, 1, 8));
  EXPECT_EQ(denver.offset_of_local(at(2026, 3, 8, 2, 30)).change, at(2026, 3, 8, 9));
  EXPECT_EQ(denver.offset_of_local(at(2026, 6, 1)).change, no_moment);
}

TEST(TimeZone, KnowsOffsetsThatAreNoWholeHours) {
  const auto kathmandu = zone("Asia/Kathmandu");
  EXPECT_EQ(kathmandu.offset_at(at(2026, 6, 1)), 5 * hour + 45 * 60);
  expect(kathmandu.offset_of_local(at(2026, 6, 1)), Kind::unique, 20700, 20700);
}

// Half an hour of summer time: 2025-04-06 02:00 back to 01:30, 2025-10-05 02:00 on to 02:30.
TEST(TimeZone, KnowsSummerTimeOfHalfAnHour) {
  const auto lord_howe = zone("Australia/Lord_Howe");
  expect(lord_howe.offset_of_local(at(2025, 4, 6, 1, 45)), Kind::ambiguous, 11 * hour, 10 * hour + 1800);
  expect(lord_howe.offset_of_local(at(2025, 4, 6, 1, 29)), Kind::unique, 11 * hour, 11 * hour);
  expect(lord_howe.offset_of_local(at(2025, 10, 5, 2, 15)), Kind::impossible, 10 * hour + 1800, 11 * hour);
}

// Samoa crossed the date line: 30 December 2011 did not happen there.
TEST(TimeZone, KnowsADayThatNeverWas) {
  const auto apia = zone("Pacific/Apia");
  const Day skipped = day_from({2011, 12, 30});
  expect(apia.offset_of_local(at(2011, 12, 30, 12)), Kind::impossible, -10 * hour, 14 * hour);
  EXPECT_FALSE(apia.offset_of_whole_day(skipped));
  EXPECT_EQ(apia.offset_of_whole_day(skipped - 1), -10 * hour);
  EXPECT_EQ(apia.offset_of_whole_day(skipped + 1), 14 * hour);
}

TEST(TimeZone, FollowsItsRuleIntoTheFarFuture) {
  const auto denver = zone("America/Denver");
  // 2400 begins on a Saturday, like 2000 did: summer time from 12 March to 5 November.
  EXPECT_EQ(denver.offset_at(at(2400, 7, 1)), -6 * hour);
  EXPECT_EQ(denver.abbreviation_at(at(2400, 7, 1)), "MDT");
  EXPECT_EQ(denver.offset_at(at(2400, 1, 1)), -7 * hour);
  expect(denver.offset_of_local(at(2400, 3, 12, 2, 30)), Kind::impossible, -7 * hour, -6 * hour);
  expect(denver.offset_of_local(at(2400, 11, 5, 1, 30)), Kind::ambiguous, -6 * hour, -7 * hour);
  EXPECT_EQ(denver.offset_of_local(at(2400, 11, 5, 1, 30)).change, at(2400, 11, 5, 8));
  EXPECT_EQ(denver.offset_of_local(at(9999, 12, 31, 23, 59, 59)).offset_s, -7 * hour);
}

// The rule has been in force since 2007.
TEST(TimeZone, ReadsARuleToTheSameEffectAsTheNamedZone) {
  const auto named = zone("America/Denver");
  const auto ruled = zone("MST7MDT,M3.2.0,M11.1.0");
  for (Moment m = at(2007, 1, 1); m < at(2038, 1, 1); m += 1800) {
    ASSERT_EQ(named.offset_at(m), ruled.offset_at(m)) << m;
    const auto by_name = named.offset_of_local(m);
    const auto by_rule = ruled.offset_of_local(m);
    ASSERT_EQ(by_name.kind, by_rule.kind) << m;
    ASSERT_EQ(by_name.offset_s, by_rule.offset_s) << m;
    ASSERT_EQ(by_name.other_offset_s, by_rule.other_offset_s) << m;
  }
}

TEST(TimeZone, GivesTheOffsetOfADayWithoutAChange) {
  const auto denver = zone("America/Denver");
  EXPECT_EQ(denver.offset_of_whole_day(day_from({2026, 6, 1})), -6 * hour);
  EXPECT_EQ(denver.offset_of_whole_day(day_from({2026, 12, 1})), -7 * hour);
  EXPECT_FALSE(denver.offset_of_whole_day(day_from({2026, 3, 8})));
  EXPECT_FALSE(denver.offset_of_whole_day(day_from({2026, 11, 1})));
  EXPECT_EQ(denver.offset_of_whole_day(day_from({2026, 3, 7})), -7 * hour);
  EXPECT_EQ(denver.offset_of_whole_day(day_from({2026, 3, 9})), -6 * hour);
}

// In Havana the clock goes from 24:00 to 01:00, and back from 01:00 to 00:00: both on the very edge of a day.
TEST(TimeZone, AgreesWithItselfOnWholeDaysSecondBySecond) {
  for (const auto* name : {"America/Havana", "Asia/Gaza", "America/Nuuk", "Antarctica/Troll"}) {
    const auto clock = zone(name);
    for (Day day = day_from({2024, 1, 1}); day < day_from({2025, 1, 1}); ++day) {
      const auto offset_s = clock.offset_of_whole_day(day);
      bool is_steady = true;
      for (std::int64_t second : {0, 1, 1799, 1800, 3599, 3600, 5400, 7199, 7200, 9000, 10800, 82800, 84600, 86399}) {
        const auto local = clock.offset_of_local(day * std::int64_t{86400} + second);
        is_steady = is_steady && local.kind == Kind::unique;
        if (offset_s) {
          ASSERT_EQ(local.offset_s, *offset_s) << name << day;
        }
      }
      ASSERT_EQ(offset_s.has_value(), is_steady) << name << " " << day;
    }
  }
}

// An hour skipped at 02:00 and given back at noon: the day has its 24 hours, but not one offset.
TEST(TimeZone, SeesTwoChangesInOneDay) {
  const auto clock = zone("AAA5BBB,100/2,100/12");
  const Day day = day_from({2026, 1, 1}) + 100;
  EXPECT_FALSE(clock.offset_of_whole_day(day));
  EXPECT_EQ(clock.offset_of_whole_day(day + 1), -5 * hour);
  EXPECT_EQ(clock.offset_of_local(day * std::int64_t{86400} + 5 * hour).offset_s, -4 * hour);
}

TEST(TimeZone, UtcNeedsNoZoneFile) {
  const ScratchFolder empty;
  const EnvironmentVariable folder("TZDIR", empty.path().string());
  EXPECT_EQ(zone("UTC").offset_at(at(2026, 6, 1)), 0);
  EXPECT_EQ(zone("UTC0").offset_at(at(2026, 6, 1)), 0);
  EXPECT_EQ(TimeZone::utc().name(), "UTC");
  EXPECT_EQ(TimeZone::utc().abbreviation_at(0), "UTC");
  EXPECT_EQ(TimeZone::utc().offset_of_whole_day(20000), 0);
}

TEST(TimeZone, SuggestsTheNameThatWasMeant) {
  EXPECT_EQ(
      fault("America/Denvr"),
      "book.toml:3:13: error: unknown time zone 'America/Denvr'; did you mean 'America/Denver'? [time-zone/unknown]");
  EXPECT_EQ(fault("Denver"),
            "book.toml:3:13: error: unknown time zone 'Denver'; did you mean 'America/Denver'? [time-zone/unknown]");
  EXPECT_EQ(
      fault("Xyzzyplugh"),
      "book.toml:3:13: error: unknown time zone 'Xyzzyplugh'; write a zone's name, as America/Denver, or a rule, as "
      "MST7MDT,M3.2.0,M11.1.0 [time-zone/unknown]");
}

TEST(TimeZone, NamesThePackageWhereThereAreNoZoneFiles) {
  const ScratchFolder empty;
  const std::string path = empty.path().string();
  const EnvironmentVariable folder("TZDIR", path);
  EXPECT_EQ(fault("America/Denver"),
            "book.toml:3:13: error: no zone files in " + path +
                " to look up 'America/Denver'; install the package tzdata, or write the rule, as "
                "MST7MDT,M3.2.0,M11.1.0 [time-zone/no-zone-files]");
}

TEST(TimeZone, SaysWhereAListedZoneHasNoFile) {
  const ScratchFolder scratch;
  std::ofstream(scratch.path() / "tzdata.zi") << "L Inland/Fold US/Fold\n";
  const std::string path = scratch.path().string();
  const EnvironmentVariable folder("TZDIR", path);
  EXPECT_EQ(fault("US/Fold"),
            "book.toml:3:13: error: the file of the zone 'US/Fold' is missing from " + path +
                "; it may be an old name that the package tzdata-legacy brings; write a zone's name, as "
                "America/Denver, or a rule, as MST7MDT,M3.2.0,M11.1.0 [time-zone/unknown]");
}

TEST(TimeZone, NeverLeavesTheFolderOfZoneFiles) {
  const ScratchFolder scratch;
  std::filesystem::create_directory(scratch.path() / "zones");
  std::ofstream(scratch.path() / "outside", std::ios::binary) << made_up_zone().text();
  std::ofstream(scratch.path() / "zones/Inside", std::ios::binary) << made_up_zone().text();
  const EnvironmentVariable folder("TZDIR", (scratch.path() / "zones").string());
  EXPECT_TRUE(TimeZone::named("Inside", {}));
  EXPECT_FALSE(TimeZone::named("../outside", {}));
  EXPECT_FALSE(TimeZone::named("./Inside", {}));
  EXPECT_FALSE(TimeZone::named((scratch.path() / "outside").string(), {}));
  EXPECT_FALSE(TimeZone::named("", {}));
  EXPECT_FALSE(TimeZone::named(std::string_view("Inside\0", 7), {}));
}

TEST(TimeZone, RefusesADamagedOrForeignFile) {
  const ScratchFolder scratch;
  std::filesystem::create_directory(scratch.path() / "Folder");
  std::ofstream(scratch.path() / "Short", std::ios::binary) << made_up_zone().text().substr(0, 100);
  std::ofstream(scratch.path() / "Huge", std::ios::binary) << made_up_zone().text() << std::string(2'000'000, ' ');
  auto leap = made_up_zone();
  leap.leap_seconds = 27;
  std::ofstream(scratch.path() / "Leap", std::ios::binary) << leap.text();
  const std::string path = scratch.path().string();
  const EnvironmentVariable folder("TZDIR", path);
  const std::string hint =
      "; write a zone's name, as America/Denver, or a rule, as MST7MDT,M3.2.0,M11.1.0 [time-zone/damaged-file]";
  EXPECT_EQ(fault("Short"),
            "book.toml:3:13: error: the zone file " + path + "/Short can't be used: it is cut short" + hint);
  EXPECT_EQ(fault("Huge"),
            "book.toml:3:13: error: the zone file " + path + "/Huge can't be used: it is not a zone file" + hint);
  EXPECT_EQ(fault("Leap"),
            "book.toml:3:13: error: the zone file " + path + "/Leap can't be used: it counts leap seconds" + hint);
  EXPECT_FALSE(TimeZone::named("Folder", {}));
}

TEST(TimeZone, SaysWhatIsWrongWithARule) {
  EXPECT_EQ(
      fault("XST7XDT"),
      "book.toml:3:13: error: can't read the time zone 'XST7XDT': two clocks need the days on which they change, as "
      "MST7MDT,M3.2.0,M11.1.0; write a zone's name, as America/Denver, or a rule, as MST7MDT,M3.2.0,M11.1.0 "
      "[time-zone/rule]");
}

// Whoever writes "UTC-5" means five hours behind UTC; POSIX reads it as five ahead.
TEST(TimeZone, RefusesARuleWhoseNameAndSignDisagree) {
  EXPECT_EQ(
      fault("UTC-5"),
      "book.toml:3:13: error: the time zone 'UTC-5' contradicts itself: such a rule counts hours west of UTC; write "
      "<-05>5 for five hours behind UTC, <+05>-5 for five hours ahead [time-zone/sign]");
  EXPECT_FALSE(TimeZone::named("UTC+02:00", {}));
  EXPECT_FALSE(TimeZone::named("GMT+2", {}));
  EXPECT_FALSE(TimeZone::named("<+02>2", {}));
  EXPECT_FALSE(TimeZone::named("<+0545>5:45", {}));
  EXPECT_EQ(zone("<+0545>-5:45").offset_at(0), 20700);
  EXPECT_EQ(zone("<-07>7").offset_at(0), -7 * hour);
}

}  // namespace
}  // namespace driftwarden::time_zone_test

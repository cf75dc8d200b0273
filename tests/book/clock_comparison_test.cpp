// SPDX-License-Identifier: MIT
// The zones against the C library's, which reads the same files by code of its own. Each comparison runs in a child
// process: it sets the zone of that process.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <random>

#include "book/time_zone.hpp"
#include "book/zone_names.hpp"

namespace driftwarden::clock_comparison_test {
namespace {

using Kind = TimeZone::Local::Kind;

constexpr Moment year_1800 = -5364662400;
constexpr Moment year_1971 = 31536000;
constexpr Moment year_2500 = 16725225600;

int status_of_child(const std::function<bool()>& agrees) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(agrees() ? 0 : 1);
  int status = -1;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

bool fail(const std::string& name, Moment moment, const char* what) {
  std::fprintf(stderr, "%s at %lld: %s differs\n", name.c_str(), static_cast<long long>(moment), what);
  return false;
}

bool same_offset(const TimeZone& zone, const std::string& name, Moment moment) {
  const std::time_t time = moment;
  std::tm clock{};
  ::localtime_r(&time, &clock);
  if (clock.tm_gmtoff != zone.offset_at(moment)) return fail(name, moment, "offset");
  return clock.tm_zone == zone.abbreviation_at(moment) || fail(name, moment, "abbreviation");
}

// The library's own reading of a local time must be one of ours: the only one, one of two, or moved across the gap.
bool same_meaning(const TimeZone& zone, const std::string& name, Moment local) {
  const std::time_t as_utc = local;
  std::tm clock{};
  ::gmtime_r(&as_utc, &clock);
  clock.tm_isdst = -1;
  const Moment theirs = ::mktime(&clock);
  const auto ours = zone.offset_of_local(local);
  const bool is_ours = theirs == local - ours.offset_s || theirs == local - ours.other_offset_s;
  return is_ours || fail(name, local, "local time");
}

using Comparison = std::function<bool(const TimeZone&, const std::string&, Moment)>;

bool agrees(const std::string& name, int moments, const Comparison& compare, Moment earliest = year_1800) {
  ::setenv("TZ", name.c_str(), 1);
  ::tzset();
  const auto zone = TimeZone::named(name, {});
  if (!zone) return fail(name, 0, "readability");
  std::mt19937_64 random(20261125);
  bool all_good = true;
  for (int i = 0; i < moments && all_good; ++i) {
    const auto span = static_cast<std::uint64_t>(year_2500 - earliest);
    all_good = compare(*zone, name, earliest + static_cast<Moment>(random() % span));
  }
  return all_good;
}

std::string folder() { return std::getenv("TZDIR") == nullptr ? "/usr/share/zoneinfo" : std::getenv("TZDIR"); }

TEST(ClockComparison, EveryListedZoneShowsTheSameTime) {
  const auto names = listed_zone_names(folder());
  ASSERT_GT(names.size(), 300U);
  EXPECT_EQ(status_of_child([&] {
              bool all_good = true;
              for (const auto& name : names) all_good = agrees(name, 500, same_offset) && all_good;
              return all_good;
            }),
            0);
}

TEST(ClockComparison, ManyMomentsOfTrickyZonesShowTheSameTime) {
  for (const auto* name : {"America/Denver", "America/New_York", "Europe/London", "Europe/Dublin", "Asia/Kathmandu",
                           "Australia/Lord_Howe", "America/Sao_Paulo", "Africa/Casablanca", "Pacific/Chatham",
                           "America/Nuuk", "Antarctica/Troll", "Pacific/Apia"})
    EXPECT_EQ(status_of_child([&] { return agrees(name, 50'000, same_offset); }), 0) << name;
}

// From 1971: in earlier years the C library leaves the clock changes of a bare rule out.
TEST(ClockComparison, RulesShowTheSameTime) {
  for (const auto* rule :
       {"MST7MDT,M3.2.0,M11.1.0", "CET-1CEST,M3.5.0,M10.5.0/3", "UTC0", "<+0545>-5:45",
        "<-02>2<-01>,M3.5.0/-1,M10.5.0/0", "IST-1GMT0,M10.5.0,M3.5.0/1", "AAA3BBB,J60/0,J300/12:30:15"})
    EXPECT_EQ(status_of_child([&] { return agrees(rule, 20'000, same_offset, year_1971); }), 0) << rule;
}

TEST(ClockComparison, LocalTimesMeanTheSameMoment) {
  for (const auto* name : {"America/Denver", "America/New_York", "Europe/London", "Asia/Kathmandu",
                           "Australia/Lord_Howe", "America/Sao_Paulo", "Pacific/Chatham", "America/Havana"})
    EXPECT_EQ(status_of_child([&] { return agrees(name, 20'000, same_meaning); }), 0) << name;
}

// Random moments seldom meet a change: here every ten minutes of the days around both changes of many years.
TEST(ClockComparison, LocalTimesMeanTheSameAroundChanges) {
  const auto around_changes = [](const TimeZone& zone, const std::string& name, Moment moment) {
    const Day day = static_cast<Day>(moment / 86400);
    const int year = 1970 + static_cast<int>(static_cast<unsigned>(day) % 100);
    bool all_good = true;
    for (const Day first : {day_from({year, 3, 7}), day_from({year, 10, 24})}) {
      for (Moment m = first * Moment{86400}; m < (first + 10) * Moment{86400} && all_good; m += 600)
        all_good = same_meaning(zone, name, m);
    }
    return all_good;
  };
  for (const auto* name : {"America/Denver", "Europe/London", "Australia/Lord_Howe"})
    EXPECT_EQ(status_of_child([&] { return agrees(name, 60, around_changes); }), 0) << name;
}

}  // namespace
}  // namespace driftwarden::clock_comparison_test

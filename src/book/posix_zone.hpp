// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "record/moment.hpp"

namespace driftwarden {

// When in a year the clock changes: a POSIX date rule and the wall-clock second of that day (it may lie outside the
// day: RFC 8536 §3.3.1 allows -167 to 167 hours).
struct ClockChange {
  enum class Form : std::uint8_t {
    day_without_leap_day,  // Jn: 1 to 365, 29 February never counted
    day_from_zero,         // n: 0 to 365, 29 February counted
    weekday_of_month,      // Mm.w.d: week 5 is the last one; weekday 0 is Sunday
  };
  Form form = Form::day_from_zero;
  int day = 0;
  int month = 1;
  int week = 1;
  int weekday = 0;
  std::int32_t second_of_day = 7200;

  // The local wall-clock second (as if it were UTC) at which the clock changes in that year.
  std::int64_t local_second_in(int year) const;
};

// A clock set for part of the year ("summer"); where it is behind the standard one the names are simply swapped.
struct SummerTime {
  std::string name;
  std::int32_t offset_s = 0;  // seconds east of UTC
  ClockChange begins;         // by the standard clock
  ClockChange ends;           // by the summer clock
};

// What a POSIX TZ string says, as "MST7MDT,M3.2.0,M11.1.0" (POSIX.1-2017 §8.3, with the hours of RFC 8536 §3.3.1).
struct PosixZone {
  std::string name;
  std::int32_t offset_s = 0;  // seconds east of UTC; the string counts west
  std::optional<SummerTime> summer;
};

// Reads the whole text or says in `why` what is wrong with it.
std::optional<PosixZone> read_posix_zone(std::string_view text, std::string& why);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/stamp_text.hpp"

#include <fmt/format.h>

#include <cstdlib>

#include "driftwarden/book/timestamp.hpp"

namespace driftwarden {
namespace {

std::string offset_text(std::int32_t offset_s) {
  const int minutes = std::abs(offset_s) / 60;
  return fmt::format("{}{:02}:{:02}", offset_s < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

// Date and time of day, seconds only where they are not 0.
std::string date_and_time(std::int64_t seconds) {
  const Day day = day_of_seconds(seconds);
  const auto of_day = static_cast<int>(seconds - day * seconds_in_day);
  const std::string text = fmt::format("{}T{:02}:{:02}", date_text(day), of_day / 3600, of_day / 60 % 60);
  return of_day % 60 == 0 ? text : fmt::format("{}:{:02}", text, of_day % 60);
}

}  // namespace

Day day_of_seconds(std::int64_t seconds) {
  return static_cast<Day>(seconds / seconds_in_day - (seconds % seconds_in_day < 0 ? 1 : 0));
}

std::string clock_text(std::int64_t local_seconds, std::int32_t offset_s) {
  const bool can_be_written = offset_s % 60 == 0 && std::abs(offset_s) < seconds_in_day;
  if (!can_be_written) return date_and_time(local_seconds - offset_s) + "Z";
  return date_and_time(local_seconds) + offset_text(offset_s);
}

std::string local_text(Moment moment, const TimeZone& zone) {
  if (moment == no_moment) return {};
  const std::int32_t offset_s = zone.offset_at(moment);
  return clock_text(moment + offset_s, offset_s);
}

std::string date_text(Day day) {
  if (day == no_day) return {};
  const CalendarDate date = date_of(day);
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

Day local_day(Moment moment, const TimeZone& zone) {
  return moment == no_moment ? no_day : day_of_seconds(moment + zone.offset_at(moment));
}

}  // namespace driftwarden

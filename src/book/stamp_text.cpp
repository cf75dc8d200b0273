// SPDX-License-Identifier: MIT
#include "book/stamp_text.hpp"

#include <fmt/format.h>

#include <cstdlib>

namespace driftwarden {
namespace {

void append_two(std::string& text, int number) {
  text += static_cast<char>('0' + number / 10);
  text += static_cast<char>('0' + number % 10);
}

void append_hours_and_minutes(std::string& text, int minutes) {
  append_two(text, minutes / 60);
  text += ':';
  append_two(text, minutes % 60);
}

}  // namespace

Day day_of_seconds(std::int64_t seconds) {
  return static_cast<Day>(seconds / seconds_a_day - (seconds % seconds_a_day < 0 ? 1 : 0));
}

std::string clock_text(std::int64_t local_seconds) {
  const Day day = day_of_seconds(local_seconds);
  const auto of_day = static_cast<int>(local_seconds - day * seconds_a_day);
  std::string text = date_text(day);
  text += 'T';
  append_hours_and_minutes(text, of_day / 60);
  if (of_day % 60 != 0) append_two(text += ':', of_day % 60);
  return text;
}

std::string offset_text(std::int32_t offset_s) {
  std::string text(1, offset_s < 0 ? '-' : '+');
  append_hours_and_minutes(text, std::abs(offset_s) / 60);
  return text;
}

std::string stamp_text(std::int64_t local_seconds, std::int32_t offset_s) {
  const bool can_be_written = offset_s % 60 == 0 && std::abs(offset_s) < seconds_a_day;
  if (!can_be_written) return clock_text(local_seconds - offset_s) + "Z";
  return clock_text(local_seconds) + offset_text(offset_s);
}

std::string local_text(Moment moment, const TimeZone& zone) {
  if (moment == no_moment) return {};
  const std::int32_t offset_s = zone.offset_at(moment);
  return stamp_text(moment + offset_s, offset_s);
}

std::string time_of_day_text(Moment moment, const TimeZone& zone) {
  if (moment == no_moment) return {};
  const std::string text = local_text(moment, zone);
  return text.substr(text.find('T') + 1, 5);
}

std::string date_text(Day day) {
  if (day == no_day) return {};
  const CalendarDate date = date_of(day);
  if (date.year < 0 || date.year > 9999) return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
  std::string text;
  append_two(text, date.year / 100);
  append_two(text, date.year % 100);
  append_two(text += '-', date.month);
  append_two(text += '-', date.day);
  return text;
}

Day local_day(Moment moment, const TimeZone& zone) {
  return moment == no_moment ? no_day : day_of_seconds(moment + zone.offset_at(moment));
}

Day LocalDays::look_up(Moment moment) {
  if (moment == no_moment) return no_day;
  day_ = local_day(moment, *zone_);
  const std::optional<std::int32_t> offset_s = zone_->offset_of_whole_day(day_);
  begin_ = offset_s ? day_ * seconds_a_day - *offset_s : 0;
  end_ = offset_s ? begin_ + seconds_a_day : 0;
  return day_;
}

}  // namespace driftwarden

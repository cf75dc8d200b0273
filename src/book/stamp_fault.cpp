// SPDX-License-Identifier: MIT
#include "book/stamp_fault.hpp"

#include <fmt/format.h>

#include "book/stamp_text.hpp"
#include "diagnostic/diagnostic.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

std::int64_t local_seconds(const StampParts& parts) {
  return day_from(parts.date) * seconds_a_day + parts.second_of_day();
}

// What the zone's clock showed at a moment, with its name: "02:00 MST".
std::string clock_at(Moment moment, std::int32_t offset_s, std::string_view name) {
  const std::int64_t shown = moment + offset_s;
  const std::int64_t of_day = shown - day_of_seconds(shown) * seconds_a_day;
  const std::string time = fmt::format("{:02}:{:02}", of_day / 3600, of_day / 60 % 60);
  return of_day % 60 == 0 ? fmt::format("{} {}", time, name) : fmt::format("{}:{:02} {}", time, of_day % 60, name);
}

std::string iso_date(const StampParts& parts) {
  return fmt::format("{:04}-{:02}-{:02}", parts.date.year, parts.date.month, parts.date.day);
}

std::string time_hint(const StampParts& parts) {
  if (parts.hour == 24 && parts.minute == 0 && parts.second == 0) return "midnight is 00:00 of the next day";
  return "hours run from 00 to 23, minutes and seconds from 00 to 59";
}

// The day of a number by which spreadsheets count days from 1899-12-30, where it is of this age; else "".
std::string day_of_bare_serial(std::string_view text) {
  const std::optional<double> number = number_from(text);
  if (!number || *number < 36526 || *number >= 73051) return {};  // 2000 to 2099
  return date_text(day_from({1899, 12, 30}) + static_cast<Day>(*number));
}

}  // namespace

StampFault stamp_misfit(Misfit misfit, std::string_view text, const StampParts& parts) {
  const std::string it = in_quotes(text);
  switch (misfit) {
    case Misfit::none:
      break;
    case Misfit::shape:
      if (const std::string day = day_of_bare_serial(text); !day.empty()) {
        return {"time/not-a-time", it + " is not a date and time",
                "if it is a spreadsheet's number for " + day + ", give the cell the format of a date and time"};
      }
      return {"time/not-a-time", it + " is not a date and time",
              "write year-month-day and the time, as 2026-09-21T07:15"};
    case Misfit::date_only:
      return {"time/date-only", it + " is a date without a time of day",
              "write the time too, as " + iso_date(parts) + "T07:15"};
    case Misfit::not_only_date:
      return {"time/not-only-a-date", it + " is more than a date", "write the day alone: " + iso_date(parts)};
    case Misfit::slashes:
      return {"time/slashes", it + " does not say which number is the month",
              "write year-month-day, as 2026-09-21, or say dates = \"month first\" or \"day first\" in book.toml"};
    case Misfit::twelve_hour:
      return {"time/twelve-hour", it + " has an hour that no half day has",
              "with am or pm hours run from 1 to 12, without from 00 to 23"};
    case Misfit::fraction:
      return {"time/fraction", it + " has a fraction of a second or minute",
              fmt::format("times are whole seconds: write {:02}:{:02}:{:02}", parts.hour, parts.minute, parts.second)};
    case Misfit::no_such_time:
      return {"time/no-such-time", it + " names a time that no clock shows", time_hint(parts)};
    case Misfit::no_such_offset:
      return {"time/no-such-offset", it + " has an impossible offset from UTC",
              "write Z, or an offset from -23:59 to +23:59"};
  }
  return {};
}

StampFault no_such_date(std::string_view text, const StampParts& parts, DateOrder order) {
  const std::string as_read = !parts.is_in_order                ? ""
                              : order == DateOrder::month_first ? "; this book reads month/day/year"
                                                                : "; this book reads day/month/year";
  CalendarDate date = parts.date;
  std::string hint = "years run from 0001 to 9999";
  if (date.month < 1 || date.month > 12) {
    hint = "months run from 01 to 12";
  } else if (date.year > 0) {
    hint = fmt::format("days of {:04}-{:02} run from 01 to {:02}", date.year, date.month,
                       days_in_month(date.year, date.month));
  }
  return {"time/no-such-date", in_quotes(text) + " names a day that no calendar has", hint + as_read};
}

StampFault ambiguous_time(std::string_view text, const StampParts& parts, TimeZone::Local local, const TimeZone& zone) {
  const auto seconds = local_seconds(parts);
  const auto first = zone.abbreviation_at(seconds - local.offset_s);
  const auto second = zone.abbreviation_at(seconds - local.other_offset_s);
  return {
      "time/ambiguous",
      fmt::format("{} happened twice: the clock went back from {} to {}", in_quotes(text),
                  clock_at(local.change, local.offset_s, first), clock_at(local.change, local.other_offset_s, second)),
      fmt::format("write {} (the first, {}) or {} (the second, {})", stamp_text(seconds, local.offset_s), first,
                  stamp_text(seconds, local.other_offset_s), second)};
}

StampFault impossible_time(std::string_view text, const StampParts& parts, TimeZone::Local local,
                           const TimeZone& zone) {
  const auto seconds = local_seconds(parts);
  const auto before = zone.abbreviation_at(local.change - 1);
  const auto after = zone.abbreviation_at(local.change);
  return {
      "time/impossible",
      fmt::format("{} never happened: the clock went forward from {} to {}", in_quotes(text),
                  clock_at(local.change, local.offset_s, before), clock_at(local.change, local.other_offset_s, after)),
      fmt::format("write {} if the clock had not been put forward yet ({}), {} if it had ({})",
                  stamp_text(seconds, local.offset_s), before, stamp_text(seconds, local.other_offset_s), after)};
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/timestamp.hpp"

#include <limits>

#include "book/stamp_fault.hpp"
#include "book/stamp_parts.hpp"
#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

// Days of eleven years have places of their own; others share them and are looked up again.
constexpr std::size_t known_day_places = 4096;
constexpr std::int32_t clock_changes = std::numeric_limits<std::int32_t>::max();

std::size_t place_of(const CalendarDate& date) {
  return static_cast<std::uint32_t>(date.year * 372 + date.month * 31 + date.day) % known_day_places;
}

std::int32_t number_of(const CalendarDate& date) { return date.year * 10000 + date.month * 100 + date.day; }

}  // namespace

StampReader::StampReader(const TimeZone& zone, DateOrder order)
    : zone_(&zone), order_(order), known_days_(known_day_places) {}

bool StampReader::read_any(std::string_view text, Moment& out) {
  StampParts parts;
  if (take_stamp(text, order_, parts) != Misfit::none) return false;
  const KnownDay* const known = known_day(parts.date);
  if (known == nullptr) return false;
  const std::int64_t local = known->day * seconds_a_day + parts.second_of_day();
  if (parts.has_offset) return out = local - parts.offset_s, true;
  if (known->offset_s != clock_changes) {
    if (text[4] == '-' && !parts.is_in_order) {  // an ISO date
      last_date_size_ = text.copy(last_date_.data(), last_date_.size());
      last_midnight_ = known->day * seconds_a_day - known->offset_s;
    }
    return out = local - known->offset_s, true;
  }
  const auto meaning = zone_->offset_of_local(local);
  if (meaning.kind != TimeZone::Local::Kind::unique) return false;
  return out = local - meaning.offset_s, true;
}

// The day of a calendar date, or nullptr where the calendar has none.
const StampReader::KnownDay* StampReader::known_day(const CalendarDate& date) {
  KnownDay& known = known_days_[place_of(date)];
  const std::int32_t number = number_of(date);
  if (known.date == number && number != 0) return &known;
  if (!is_valid(date)) return nullptr;
  const Day day = day_from(date);
  known = {number, day, zone_->offset_of_whole_day(day).value_or(clock_changes)};
  return &known;
}

StampFault StampReader::why(std::string_view text) const {
  StampParts parts;
  const auto misfit = take_stamp(text, order_, parts);
  if (misfit != Misfit::none) return stamp_misfit(misfit, text, parts);
  const CalendarDate date = parts.date;
  if (!is_valid(date)) return no_such_date(text, parts, order_);
  if (parts.has_offset) return {};
  const auto local = zone_->offset_of_local(day_from(date) * seconds_a_day + parts.second_of_day());
  if (local.kind == TimeZone::Local::Kind::ambiguous) return ambiguous_time(text, parts, local, *zone_);
  if (local.kind == TimeZone::Local::Kind::impossible) return impossible_time(text, parts, local, *zone_);
  return {};
}

bool StampReader::read_date(std::string_view text, Day& out) {
  StampParts parts;
  if (take_date(text, order_, parts) != Misfit::none || !is_valid(parts.date)) return false;
  out = day_from(parts.date);
  return true;
}

StampFault StampReader::why_date(std::string_view text) const {
  StampParts parts;
  const auto misfit = take_date(text, order_, parts);
  if (misfit == Misfit::shape)
    return {"time/not-a-date", in_quotes(text) + " is not a date", "write year-month-day, as 2026-09-21"};
  if (misfit != Misfit::none) return stamp_misfit(misfit, text, parts);
  return is_valid(parts.date) ? StampFault{} : no_such_date(text, parts, order_);
}

}  // namespace driftwarden

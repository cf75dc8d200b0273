// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>

#include "book/time_zone.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// The day that holds a second counted from 1970-01-01T00:00 of the same clock.
Day day_of_seconds(std::int64_t seconds);

// "2026-11-01T01:30": what a clock showed, in seconds as if it were UTC; with seconds only where they are not 0.
std::string clock_text(std::int64_t local_seconds);

// "-06:00"
std::string offset_text(std::int32_t offset_s);

// "2026-11-01T01:30-06:00" from what a clock showed and its offset. The same moment in UTC ("2026-11-01T07:30Z") where
// the offset is no whole number of minutes or a day and more: ISO 8601 can't write it.
std::string stamp_text(std::int64_t local_seconds, std::int32_t offset_s);

// The same of a moment on the zone's clock; "" for no_moment.
std::string local_text(Moment moment, const TimeZone& zone);
// "01:30", as the zone's clock showed it; "" for no_moment.
std::string time_of_day_text(Moment moment, const TimeZone& zone);
// "2026-11-01"; "" for no_day.
std::string date_text(Day day);
// The calendar day on which the zone's clock showed that moment.
Day local_day(Moment moment, const TimeZone& zone);

// The same of one moment after another, most of them of the day of the one before. One thread's; the zone must outlive
// it.
class LocalDays {
 public:
  explicit LocalDays(const TimeZone& zone) : zone_(&zone) {}
  Day day_of(Moment moment) { return moment >= begin_ && moment < end_ ? day_ : look_up(moment); }

 private:
  Day look_up(Moment moment);

  const TimeZone* zone_;
  Day day_ = no_day;  // the one before, from when to when it lasted; to no moment where its clock was changed
  Moment begin_ = 0;
  Moment end_ = 0;
};

}  // namespace driftwarden

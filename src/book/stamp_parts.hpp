// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string_view>

#include "book/timestamp.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// Why a text is no date-time, as far as the text alone tells.
enum class Misfit : std::uint8_t {
  none,
  shape,           // not of the form at all
  date_only,       // a date where a time is needed
  not_only_date,   // a time where a date is needed
  slashes,         // 9/1/2026 or 1.9.26, where nothing says which number is the month
  twelve_hour,     // 13:15 pm
  fraction,        // of a second
  no_such_time,    // 24:00, 07:60
  no_such_offset,  // +24:00
};

// The numbers of a date-time as written. The date may still be none of the calendar.
struct StampParts {
  CalendarDate date{0, 0, 0};
  int hour = 0, minute = 0, second = 0;
  bool is_in_order = false;  // whether which number is the month was said, and not told by the text
  bool has_offset = false;
  std::int32_t offset_s = 0;  // seconds east of UTC

  int second_of_day() const { return hour * 3600 + minute * 60 + second; }
};

// Takes a text apart. Where it does not fit, the parts before the misfit are filled in.
Misfit take_stamp(std::string_view text, DateOrder order, StampParts& parts);
Misfit take_date(std::string_view text, DateOrder order, StampParts& parts);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>

#include "record/moment.hpp"

namespace driftwarden {

// The day that holds a second counted from 1970-01-01T00:00 of the same clock.
Day day_of_seconds(std::int64_t seconds);

// "2026-11-01T01:30-06:00" from what a clock showed, in seconds as if it were UTC, and its offset. The same moment in
// UTC
// ("2026-11-01T07:30Z") where the offset is no whole number of minutes or a day and more: ISO 8601 can't write it.
std::string clock_text(std::int64_t local_seconds, std::int32_t offset_s);

}  // namespace driftwarden

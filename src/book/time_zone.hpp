// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"
#include "record/moment.hpp"

namespace driftwarden {

class ZoneTimeline;

// The clock of a place through the years. Immutable, cheap to copy, and safe to share between threads: the C library's
// own zone is neither read nor set.
class TimeZone {
 public:
  // A zone's name ("America/Denver"), looked up in the system's zone files (TZDIR, else /usr/share/zoneinfo), or a
  // POSIX TZ string ("MST7MDT,M3.2.0,M11.1.0"). Faults: time-zone/unknown, no-zone-files, damaged-file, rule, sign.
  static Result<TimeZone> named(std::string_view name, const Place& at);
  static TimeZone utc();

  // What a local clock reading, in seconds as if it were UTC, may mean.
  struct Local {
    enum class Kind {
      unique,      // offset_s
      ambiguous,   // the clock was put back over it: offset_s the first time, other_offset_s the second
      impossible,  // the clock was put forward past it: offset_s before, other_offset_s after
    };
    Kind kind = Kind::unique;
    std::int32_t offset_s = 0;  // seconds east of UTC
    std::int32_t other_offset_s = 0;
    Moment change = no_moment;  // when the clock was changed, unless unique
  };

  // Local seconds of years 1 to 9999.
  Local offset_of_local(std::int64_t local_seconds) const;

  std::int32_t offset_at(Moment moment) const;
  std::string abbreviation_at(Moment moment) const;

  // The offset of every second of a local day, where it is one and no second of the day is missing or occurs twice.
  std::optional<std::int32_t> offset_of_whole_day(Day day) const;

  const std::string& name() const { return name_; }

 private:
  TimeZone(std::string name, std::shared_ptr<const ZoneTimeline> timeline);
  static Result<TimeZone> from_file(std::string_view name, const std::string& path, const Place& at);
  static Result<TimeZone> from_rule(std::string_view text, const Place& at);

  std::string name_;
  std::shared_ptr<const ZoneTimeline> timeline_;
};

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "book/zone_file.hpp"

namespace driftwarden {

// A stretch of the absolute time line, [begin, end), with one setting of the clock.
struct ClockSpan {
  Moment begin = 0;
  Moment end = 0;
  const ClockSetting* setting = nullptr;

  std::int64_t local_begin() const { return begin + setting->offset_s; }
  std::int64_t local_end() const { return end + setting->offset_s; }
};

// All settings of a zone's clock in order of time. The Gregorian calendar repeats after 400 years to the weekday, and
// so does a yearly rule: 400 years of it are written out, and any other moment is looked up in those.
class ZoneTimeline {
 public:
  explicit ZoneTimeline(ZoneFile file);
  explicit ZoneTimeline(const PosixZone& rule);

  const ClockSetting& setting_at(Moment moment) const;
  // The stretches that make up [from, to), cut off at both ends. `to` is at most a year after `from`.
  std::vector<ClockSpan> spans(Moment from, Moment to) const;

 private:
  void append_rule(const PosixZone& rule, Moment from);
  void append_start(ClockStart start);
  std::int64_t whole_cycles_before(Moment moment) const;
  std::size_t index_at(Moment within_table) const;

  std::vector<ClockSetting> settings_;
  std::vector<ClockStart> starts_;  // the first is the beginning of time
  bool repeats_ = false;
  bool repeats_backwards_ = false;
  Moment cycle_begin_ = 0;
};

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/zone_timeline.hpp"

#include <algorithm>
#include <limits>

#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

constexpr int years_in_cycle = 400;
constexpr std::int64_t seconds_in_cycle = 146097 * seconds_a_day;
constexpr Moment beginning_of_time = std::numeric_limits<Moment>::min();
constexpr int last_year_with_a_rule = 9000;
constexpr Moment farthest_moment_s = Moment{1} << 59;  // from 1970; far beyond any calendar, and sums stay in range

Moment new_year(int year) { return day_from({year, 1, 1}) * seconds_a_day; }

// The calendar year, kept within years whose dates can be counted.
int year_of(Moment moment) {
  const Moment bounded = std::clamp(moment, new_year(1), new_year(last_year_with_a_rule));
  return date_of(static_cast<Day>((bounded - new_year(1)) / seconds_a_day) + day_from({1, 1, 1})).year;
}

// Begin and end of summer time in each year, in order of time. Where summer time ends as the next one begins, the
// beginning comes last: it is the one that counts.
std::vector<ClockStart> yearly_starts(const PosixZone& rule, int first_year, int last_year, std::uint16_t standard) {
  std::vector<ClockStart> starts;
  const auto summer = static_cast<std::uint16_t>(standard + 1);
  for (int year = first_year; year <= last_year; ++year) {
    starts.push_back({rule.summer->begins.local_second_in(year) - rule.offset_s, summer});
    starts.push_back({rule.summer->ends.local_second_in(year) - rule.summer->offset_s, standard});
  }
  std::stable_sort(starts.begin(), starts.end(), [](auto a, auto b) { return a.from < b.from; });
  return starts;
}

}  // namespace

ZoneTimeline::ZoneTimeline(ZoneFile file) : settings_(std::move(file.settings)) {
  starts_.push_back({beginning_of_time, 0});
  for (const auto start : file.starts) append_start(start);
  if (file.rule) append_rule(*file.rule, file.starts.empty() ? beginning_of_time : file.starts.back().from);
}

ZoneTimeline::ZoneTimeline(const PosixZone& rule) { append_rule(rule, beginning_of_time); }

// The rule holds from that moment on, whatever was said about that moment before.
void ZoneTimeline::append_rule(const PosixZone& rule, Moment from) {
  const auto standard = static_cast<std::uint16_t>(settings_.size());
  settings_.push_back({rule.offset_s, rule.name});
  if (!starts_.empty() && starts_.back().from == from) starts_.pop_back();
  if (!rule.summer) return append_start({from, standard});

  settings_.push_back({rule.summer->offset_s, rule.summer->name});
  repeats_ = true;
  repeats_backwards_ = from == beginning_of_time;
  const int first_year = repeats_backwards_ ? 1970 : year_of(from);
  cycle_begin_ = new_year(first_year + 1);
  const auto yearly = yearly_starts(rule, first_year - 1, first_year + years_in_cycle + 2, standard);
  const auto after = std::find_if(yearly.begin(), yearly.end(), [&](auto s) { return s.from > from; });
  append_start({from, after == yearly.begin() ? standard : std::prev(after)->setting});
  for (auto s = after; s != yearly.end(); ++s) append_start(*s);
}

// Of two starts at one moment the later one said counts; a start that changes nothing is left out.
void ZoneTimeline::append_start(ClockStart start) {
  if (!starts_.empty() && starts_.back().from == start.from) starts_.pop_back();
  if (starts_.empty() || starts_.back().setting != start.setting) starts_.push_back(start);
}

// How far a moment is moved, in seconds, to lie within the years written out.
std::int64_t ZoneTimeline::whole_cycles_before(Moment moment) const {
  const Moment into_cycle = std::clamp(moment, -farthest_moment_s, farthest_moment_s) - cycle_begin_;
  if (!repeats_ || (into_cycle < 0 && !repeats_backwards_)) return 0;
  const std::int64_t cycles = into_cycle / seconds_in_cycle - (into_cycle % seconds_in_cycle < 0 ? 1 : 0);
  return cycles * seconds_in_cycle;
}

std::size_t ZoneTimeline::index_at(Moment within_table) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), within_table,
                                      [](Moment m, const ClockStart& s) { return m < s.from; });
  return static_cast<std::size_t>(after - starts_.begin()) - 1;
}

const ClockSetting& ZoneTimeline::setting_at(Moment moment) const {
  return settings_[starts_[index_at(moment - whole_cycles_before(moment))].setting];
}

std::vector<ClockSpan> ZoneTimeline::spans(Moment from, Moment to) const {
  const std::int64_t moved = whole_cycles_before(from);
  std::vector<ClockSpan> spans;
  for (std::size_t i = index_at(from - moved); i < starts_.size() && (spans.empty() || spans.back().end < to); ++i) {
    const Moment begin = spans.empty() ? from : spans.back().end;
    const Moment end = i + 1 < starts_.size() ? std::min(to, starts_[i + 1].from + moved) : to;
    spans.push_back({begin, end, &settings_[starts_[i].setting]});
  }
  return spans;
}

}  // namespace driftwarden

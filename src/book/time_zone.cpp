// SPDX-License-Identifier: MIT
#include "book/time_zone.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>
#include <vector>

#include "book/plain_text.hpp"
#include "book/posix_zone.hpp"
#include "book/stamp_text.hpp"
#include "book/zone_file.hpp"
#include "book/zone_names.hpp"
#include "book/zone_timeline.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

// No clock is farther from UTC (RFC 8536 §3.2: less than 26 hours), so all readings of a local time lie within this.
constexpr std::int64_t farthest_offset_s = std::int64_t{27} * 3600;
constexpr std::size_t largest_zone_file = 1'000'000;
constexpr const char* how_to_name = "write a zone's name, as America/Denver, or a rule, as MST7MDT,M3.2.0,M11.1.0";

std::string zone_folder() {
  const char* said = std::getenv("TZDIR");
  return said != nullptr && *said != '\0' ? said : "/usr/share/zoneinfo";
}

bool is_file(const std::string& path) {
  std::error_code ignored;
  return std::filesystem::is_regular_file(path, ignored);
}

bool has_files(const std::string& folder) {
  std::error_code fault;
  return !std::filesystem::is_empty(folder, fault) && !fault;
}

// Only a rule has offsets, commas or brackets; a name with a digit is a rule where no file has that name ("MST7").
bool may_be_a_rule(std::string_view text) {
  const bool has_mark = text.find_first_of("0123456789,<:") != std::string_view::npos;
  return has_mark && text.find('/') == std::string_view::npos;
}
bool can_only_be_a_rule(std::string_view text) { return text.find_first_of(",<") != std::string_view::npos; }

Diagnostic unknown_zone(std::string_view name, const std::string& folder, const Place& at) {
  if (!has_files(folder))
    return error("time-zone/no-zone-files", at, "no zone files in " + folder + " to look up " + in_quotes(name),
                 "install the package tzdata, or write the rule, as MST7MDT,M3.2.0,M11.1.0");
  const auto names = listed_zone_names(folder);
  const auto nearest = nearest_zone_name(name, names);
  if (nearest == name)
    return error("time-zone/unknown", at, "the file of the zone " + in_quotes(name) + " is missing from " + folder,
                 "it may be an old name that the package tzdata-legacy brings; " + std::string(how_to_name));
  return error("time-zone/unknown", at, "unknown time zone " + in_quotes(name),
               nearest.empty() ? how_to_name : "did you mean '" + nearest + "'?");
}

// The offset that a clock's name claims: "+0545" is 20700; UTC and GMT are 0. Empty: a name like any other.
std::optional<std::int32_t> claimed_offset(std::string_view name) {
  if (name == "UTC" || name == "GMT") return 0;
  const bool is_signed = name.front() == '+' || name.front() == '-';
  const bool is_number = std::all_of(name.begin() + 1, name.end(), is_digit);
  if (!is_signed || !is_number || (name.size() != 3 && name.size() != 5)) return std::nullopt;
  const auto pair = [&](std::size_t at) { return at < name.size() ? (name[at] - '0') * 10 + name[at + 1] - '0' : 0; };
  const std::int32_t size = pair(1) * 3600 + pair(3) * 60;
  return name.front() == '-' ? -size : size;
}

// "UTC-5" is five hours *east* in a POSIX string, and whoever writes it means west: not to be guessed.
bool contradicts_itself(const PosixZone& rule) {
  const auto claimed = claimed_offset(rule.name);
  return claimed && *claimed != rule.offset_s;
}

}  // namespace

TimeZone::TimeZone(std::string name, std::shared_ptr<const ZoneTimeline> timeline)
    : name_(std::move(name)), timeline_(std::move(timeline)) {}

TimeZone TimeZone::utc() { return {"UTC", std::make_shared<ZoneTimeline>(PosixZone{"UTC", 0, std::nullopt})}; }

Result<TimeZone> TimeZone::named(std::string_view name, const Place& at) {
  if (name == "UTC") return utc();
  if (can_only_be_a_rule(name)) return from_rule(name, at);
  const std::string folder = zone_folder();
  const std::string path = folder + "/" + std::string(name);
  if (is_zone_name(name) && is_file(path)) return from_file(name, path, at);
  if (may_be_a_rule(name)) return from_rule(name, at);
  return unknown_zone(name, folder, at);
}

Result<TimeZone> TimeZone::from_file(std::string_view name, const std::string& path, const Place& at) {
  const Result<HeldFile> bytes = HeldFile::open(path, path);
  std::string why = bytes ? "" : bytes.faults().front().message;
  const bool is_small = bytes && bytes->bytes().size() < largest_zone_file;
  auto file = bytes ? read_zone_file(is_small ? bytes->bytes() : "", why) : std::nullopt;
  if (!file)
    return error("time-zone/damaged-file", at, "the zone file " + path + " can't be used: " + why, how_to_name);
  return TimeZone(std::string(name), std::make_shared<ZoneTimeline>(*std::move(file)));
}

Result<TimeZone> TimeZone::from_rule(std::string_view text, const Place& at) {
  std::string why;
  const auto rule = read_posix_zone(text, why);
  if (!rule)
    return error("time-zone/rule", at, "can't read the time zone " + in_quotes(text) + ": " + why, how_to_name);
  if (contradicts_itself(*rule))
    return error("time-zone/sign", at,
                 "the time zone " + in_quotes(text) + " contradicts itself: such a rule counts hours west of UTC",
                 "write <-05>5 for five hours behind UTC, <+05>-5 for five hours ahead");
  return TimeZone(std::string(text), std::make_shared<ZoneTimeline>(*rule));
}

TimeZone::Local TimeZone::offset_of_local(std::int64_t local_seconds) const {
  const auto spans = timeline_->spans(local_seconds - farthest_offset_s, local_seconds + farthest_offset_s);
  const auto shows_it = [&](const ClockSpan& s) {
    return s.local_begin() <= local_seconds && local_seconds < s.local_end();
  };
  const auto first = std::find_if(spans.begin(), spans.end(), shows_it);
  if (first == spans.end()) {
    const auto after =
        std::find_if(spans.begin(), spans.end(), [&](auto& s) { return local_seconds < s.local_begin(); });
    return {Local::Kind::impossible, std::prev(after)->setting->offset_s, after->setting->offset_s, after->begin};
  }
  const auto second = std::find_if(std::next(first), spans.end(), shows_it);
  if (second == spans.end())
    return {Local::Kind::unique, first->setting->offset_s, first->setting->offset_s, no_moment};
  return {Local::Kind::ambiguous, first->setting->offset_s, second->setting->offset_s, second->begin};
}

std::int32_t TimeZone::offset_at(Moment moment) const { return timeline_->setting_at(moment).offset_s; }

std::string TimeZone::abbreviation_at(Moment moment) const { return timeline_->setting_at(moment).name; }

std::optional<std::int32_t> TimeZone::offset_of_whole_day(Day day) const {
  const std::int64_t midnight = day * seconds_a_day;
  const std::int64_t next_midnight = midnight + seconds_a_day;
  const auto spans = timeline_->spans(midnight - farthest_offset_s, next_midnight + farthest_offset_s);
  std::optional<std::int32_t> offset_s;
  std::int64_t shown_s = 0;
  for (const auto& span : spans) {
    const auto part = std::min(span.local_end(), next_midnight) - std::max(span.local_begin(), midnight);
    if (part <= 0) continue;
    if (offset_s && *offset_s != span.setting->offset_s) return std::nullopt;
    offset_s = span.setting->offset_s;
    shown_s += part;
  }
  return shown_s == seconds_a_day ? offset_s : std::nullopt;
}

}  // namespace driftwarden

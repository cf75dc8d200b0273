// SPDX-License-Identifier: MIT
// Any bytes as a compiled zone file and as a POSIX TZ string. Nothing may crash or take long; what is refused has a
// reason; a clock that is taken is one: what it shows at a moment leads back to that moment.
#include <array>
#include <cstdint>

#include "book/time_zone.hpp"
#include "book/zone_file.hpp"
#include "evidence/small_bag.hpp"
#include "fuzz/require.hpp"

namespace driftwarden {
namespace {

void leads_back(const TimeZone& zone) {
  constexpr std::array<Moment, 9> moments{-4'000'000'000, -86'400,       0,
                                          951'782'400,    1'774'000'000, 1'793'520'000,
                                          2'524'608'000,  4'107'542'400, 32'503'680'000};
  for (const Moment moment : moments) {
    const std::int32_t offset = zone.offset_at(moment);
    const TimeZone::Local local = zone.offset_of_local(moment + offset);
    require(local.offset_s == offset || local.other_offset_s == offset, "the clock's reading leads back");
    require(local.kind != TimeZone::Local::Kind::impossible, "what a clock has shown is possible");
    (void)zone.abbreviation_at(moment);
    (void)zone.offset_of_whole_day(static_cast<Day>(moment / 86'400));
  }
}

void as_a_file(std::string_view bytes) {
  std::string why;
  const std::optional<ZoneFile> file = read_zone_file(bytes, why);
  require(file.has_value() == why.empty(), "a zone file is taken, or refused with a reason");
  if (!file) return;
  require(!file->settings.empty(), "a zone has a setting");
  Moment last = no_moment;
  for (const ClockStart& start : file->starts) {
    require(start.setting < file->settings.size(), "a start has its setting");
    require(last == no_moment || start.from > last, "starts ascend");
    last = start.from;
  }
}

// As a book would name it, from a folder of zone files.
void named(std::string_view bytes) {
  static const ScratchFolder folder;
  static const EnvironmentVariable zones("TZDIR", folder.path().string());
  write_file(folder.path() / "Fuzz", bytes);
  const Result<TimeZone> zone = TimeZone::named("Fuzz", {"book.toml", 1, 1});
  if (zone) leads_back(*zone);
  if (!zone) require(!zone.faults().empty() && !zone.faults().front().hint.empty(), "a way out is told");
}

void as_a_rule(std::string_view text) {
  std::string why;
  const std::optional<PosixZone> rule = read_posix_zone(text, why);
  require(rule.has_value() == why.empty(), "a rule is taken, or refused with a reason");
  const Result<TimeZone> zone = TimeZone::named(text, {"book.toml", 1, 1});
  if (zone) leads_back(*zone);
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  if (bytes.starts_with("TZif")) {
    as_a_file(bytes);
    named(bytes);
  } else {
    as_a_rule(bytes.substr(0, 200));
  }
  return 0;
}

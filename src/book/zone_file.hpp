// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/posix_zone.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// One setting of a zone's clock.
struct ClockSetting {
  std::int32_t offset_s = 0;  // seconds east of UTC
  std::string name;           // "MDT"
};

struct ClockStart {
  Moment from = 0;
  std::uint16_t setting = 0;  // index into the settings
};

// What a compiled zone file says: the settings, when each began, and the rule for all time after the last of them.
struct ZoneFile {
  std::vector<ClockSetting> settings;  // the first also holds for all time before the first start
  std::vector<ClockStart> starts;      // ascending
  std::optional<PosixZone> rule;
};

// Reads the bytes of a TZif file, version 1 to 4 (RFC 8536, RFC 9636), or says in `why` what is wrong with them. A file
// that counts leap seconds is refused: the project's time line does not.
std::optional<ZoneFile> read_zone_file(std::string_view bytes, std::string& why);

}  // namespace driftwarden

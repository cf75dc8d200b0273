// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace driftwarden {

// Builds the bytes of compiled zone files (RFC 8536 §3), good or bad.
struct ZoneBytes {
  char version = '2';
  std::vector<std::pair<std::int64_t, std::uint8_t>> starts;
  std::vector<std::pair<std::int32_t, std::uint8_t>> settings;  // offset, place of the name in `names`
  std::string names;
  std::string rule;
  std::uint32_t leap_seconds = 0;

  static std::string number(std::int64_t value, std::size_t size) {
    std::string bytes;
    for (std::size_t i = size; i-- > 0;)
      bytes += static_cast<char>(static_cast<std::uint64_t>(value) >> (8 * i) & 0xFF);
    return bytes;
  }

  std::string header() const {
    std::string bytes = "TZif" + std::string(1, version) + std::string(15, '\0');
    for (const std::size_t count :
         {std::size_t{0}, std::size_t{0}, std::size_t{leap_seconds}, starts.size(), settings.size(), names.size()})
      bytes += number(static_cast<std::int64_t>(count), 4);
    return bytes;
  }

  std::string block(std::size_t time_bytes) const {
    std::string bytes = header();
    for (const auto& start : starts) bytes += number(start.first, time_bytes);
    for (const auto& start : starts) bytes += static_cast<char>(start.second);
    for (const auto& [offset_s, name_at] : settings) bytes += number(offset_s, 4) + '\0' + static_cast<char>(name_at);
    bytes += names;
    for (std::uint32_t i = 0; i < leap_seconds; ++i) bytes += number(78796800 + i, time_bytes) + number(i + 1, 4);
    return bytes;
  }

  std::string text() const {
    if (version == '\0') return block(4);
    return block(4) + block(8) + "\n" + rule + "\n";
  }
};

// A made-up zone: five hours behind UTC until 2020-03-08T07:00Z, then four, then back on 2020-11-01T06:00Z, and the
// same two Sundays every year after.
inline ZoneBytes made_up_zone() {
  return {'2',
          {{1583650800, 1}, {1604210400, 0}},
          {{-18000, 0}, {-14400, 4}},
          std::string("AAA\0BBB\0", 8),
          "AAA5BBB,M3.2.0,M11.1.0",
          0};
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "book/zone_file.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

// RFC 8536 §3.2: offsets lie between -25 and 26 hours, times not before -2^59; the other side is bounded alike, so that
// sums can't overflow.
constexpr std::int64_t lowest_offset_s = -25 * 3600 + 1;
constexpr std::int64_t highest_offset_s = 26 * 3600 - 1;
constexpr std::int64_t farthest_s = std::int64_t{1} << 59;
constexpr std::uint32_t most_starts = 100'000;
constexpr std::uint32_t most_settings = 256;
constexpr std::uint32_t most_name_bytes = 100'000;
constexpr std::size_t header_bytes = 44;

struct Header {
  char version = 0;
  std::uint32_t utc_marks = 0, standard_marks = 0, leap_seconds = 0, starts = 0, settings = 0, name_bytes = 0;

  std::size_t block_bytes(std::size_t time_bytes) const {
    return starts * (time_bytes + 1) + settings * std::size_t{6} + name_bytes + leap_seconds * (time_bytes + 4) +
           standard_marks + utc_marks;
  }
};

class TzifReader {
 public:
  explicit TzifReader(std::string_view bytes) : rest_(bytes) {}

  std::optional<ZoneFile> file() {
    auto header = read_header();
    if (!header) return std::nullopt;
    const bool has_second_block = header->version != '\0';
    if (has_second_block) header = skip_to_second_block(*header);
    if (!header || !block(*header, has_second_block ? 8 : 4)) return std::nullopt;
    if (has_second_block && !footer()) return std::nullopt;
    return std::move(zone_);
  }

  const std::string& why() const { return why_; }

 private:
  bool fail(std::string why) {
    if (why_.empty()) why_ = std::move(why);
    return false;
  }

  // The size has been checked before: RFC 8536 numbers are big-endian two's complement.
  std::int64_t number(std::size_t size) {
    std::uint64_t bits = 0;
    for (const char c : rest_.substr(0, size)) bits = bits << 8 | static_cast<unsigned char>(c);
    rest_.remove_prefix(size);
    return size == 8 ? static_cast<std::int64_t>(bits) : static_cast<std::int32_t>(static_cast<std::uint32_t>(bits));
  }
  std::uint32_t count() { return static_cast<std::uint32_t>(number(4)); }
  std::uint8_t byte() { return static_cast<std::uint8_t>(number(1)); }

  std::optional<Header> read_header() {
    if (rest_.substr(0, 4) != "TZif") return fail("it is not a zone file"), std::nullopt;
    if (rest_.size() < header_bytes) return fail("it is cut short"), std::nullopt;
    Header h;
    h.version = rest_[4];
    rest_.remove_prefix(20);
    h.utc_marks = count();
    h.standard_marks = count();
    h.leap_seconds = count();
    h.starts = count();
    h.settings = count();
    h.name_bytes = count();
    if (h.version != '\0' && (h.version < '2' || h.version > '9')) return fail("its version is unknown"), std::nullopt;
    return is_sound(h) ? std::optional(h) : std::nullopt;
  }

  bool is_sound(const Header& h) {
    const bool counts_fit = h.starts <= most_starts && h.settings <= most_settings && h.name_bytes <= most_name_bytes &&
                            h.leap_seconds <= most_starts && h.utc_marks <= most_settings &&
                            h.standard_marks <= most_settings;
    return counts_fit || fail("its counts are impossible");
  }

  std::optional<Header> skip_to_second_block(const Header& first) {
    const std::size_t size = first.block_bytes(4);
    if (rest_.size() < size) return fail("it is cut short"), std::nullopt;
    rest_.remove_prefix(size);
    const auto second = read_header();
    if (second && second->version != first.version) return fail("its two headers differ"), std::nullopt;
    return second;
  }

  bool block(const Header& h, std::size_t time_bytes) {
    const auto all_or_none = [&](std::uint32_t marks) { return marks == 0 || marks == h.settings; };
    if (h.settings == 0 || h.name_bytes == 0) return fail("it names no clock");
    if (!all_or_none(h.utc_marks) || !all_or_none(h.standard_marks)) return fail("its counts are impossible");
    if (rest_.size() < h.block_bytes(time_bytes)) return fail("it is cut short");
    if (h.leap_seconds != 0) return fail("it counts leap seconds");
    if (!starts(h, time_bytes) || !settings(h)) return false;
    rest_.remove_prefix(h.standard_marks + h.utc_marks);
    return true;
  }

  bool starts(const Header& h, std::size_t time_bytes) {
    for (std::uint32_t i = 0; i < h.starts; ++i) zone_.starts.push_back({number(time_bytes), 0});
    for (auto& start : zone_.starts) start.setting = byte();
    const auto out_of_range = [&](const ClockStart& s) {
      return s.from < -farthest_s || s.from > farthest_s || s.setting >= h.settings;
    };
    const auto not_rising = [](const ClockStart& a, const ClockStart& b) { return a.from >= b.from; };
    if (std::any_of(zone_.starts.begin(), zone_.starts.end(), out_of_range))
      return fail("a clock change is impossible");
    if (std::adjacent_find(zone_.starts.begin(), zone_.starts.end(), not_rising) != zone_.starts.end())
      return fail("its clock changes are not in order");
    return true;
  }

  bool settings(const Header& h) {
    const std::string_view names = rest_.substr(h.settings * std::size_t{6}, h.name_bytes);
    for (std::uint32_t i = 0; i < h.settings; ++i) {
      const std::int64_t offset = number(4);
      rest_.remove_prefix(1);  // whether it is summer time: the offset says all that is needed
      const std::size_t begin = byte();
      if (offset < lowest_offset_s || offset > highest_offset_s) return fail("an offset from UTC is impossible");
      if (!add_setting(static_cast<std::int32_t>(offset), names, begin)) return false;
    }
    rest_.remove_prefix(h.name_bytes);
    return true;
  }

  bool add_setting(std::int32_t offset_s, std::string_view names, std::size_t begin) {
    const auto end = names.find('\0', begin);
    if (end == std::string_view::npos) return fail("the name of a clock is cut short");
    const std::string_view name = names.substr(begin, end - begin);
    const auto is_printable = [](char c) { return c > ' ' && c < '\x7f'; };
    if (name.size() > 30 || !std::all_of(name.begin(), name.end(), is_printable))
      return fail("the name of a clock is damaged");
    zone_.settings.push_back({offset_s, std::string(name)});
    return true;
  }

  bool footer() {
    const auto end = rest_.size() >= 2 ? rest_.find('\n', 1) : std::string_view::npos;
    if (end == std::string_view::npos || rest_.front() != '\n') return fail("its last line is missing");
    const std::string_view rule = rest_.substr(1, end - 1);
    if (rule.empty()) return true;
    std::string why;
    zone_.rule = read_posix_zone(rule, why);
    return zone_.rule.has_value() || fail("its rule for the future is damaged: " + why);
  }

  std::string_view rest_;
  ZoneFile zone_;
  std::string why_;
};

}  // namespace

std::optional<ZoneFile> read_zone_file(std::string_view bytes, std::string& why) {
  TzifReader reader(bytes);
  auto zone = reader.file();
  if (!zone) why = reader.why();
  return zone;
}

}  // namespace driftwarden

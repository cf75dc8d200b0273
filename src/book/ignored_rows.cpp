// SPDX-License-Identifier: MIT
#include "book/ignored_rows.hpp"

#include <algorithm>
#include <charconv>
#include <optional>

#include "book/file_name.hpp"

namespace driftwarden {
namespace {

std::optional<std::uint32_t> whole_line(std::string_view text) {
  std::uint32_t line = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), line);
  if (fault != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return line;
}

}  // namespace

IgnoredRows::IgnoredRows(const std::vector<std::string>& written) {
  for (const std::string& text : written) {
    const std::size_t to = text.find('-');
    const auto first = whole_line(std::string_view(text).substr(0, to));
    const auto last = to == std::string::npos ? first : whole_line(std::string_view(text).substr(to + 1));
    if (first && last) {
      lines_.emplace_back(*first, *last);
    } else {
      beginnings_.push_back(text);
    }
  }
}

bool IgnoredRows::hold(std::uint32_t line, std::string_view first_text) const {
  const auto has_line = [line](const auto& range) { return line >= range.first && line <= range.second; };
  if (std::any_of(lines_.begin(), lines_.end(), has_line)) return true;
  const std::string text(first_text);
  const auto fits = [&text](const std::string& pattern) { return fits_wildcards(pattern, text); };
  return std::any_of(beginnings_.begin(), beginnings_.end(), fits);
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "evidence/version.hpp"

#include <algorithm>
#include <charconv>

namespace driftwarden {
namespace {

constexpr std::size_t most_digits = 6;

std::optional<unsigned> whole_number(std::string_view text) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (text.empty() || text.size() > most_digits || !std::all_of(text.begin(), text.end(), is_digit))
    return std::nullopt;
  unsigned number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

}  // namespace

std::optional<Version> version_from(std::string_view text) {
  Version version{};
  for (std::size_t i = 0; i < version.size(); ++i) {
    const std::size_t end = i + 1 < version.size() ? text.find('.') : text.size();
    if (end == std::string_view::npos) return std::nullopt;
    const std::optional<unsigned> number = whole_number(text.substr(0, end));
    if (!number) return std::nullopt;
    version[i] = *number;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return version;
}

}  // namespace driftwarden

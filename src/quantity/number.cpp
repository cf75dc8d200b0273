// SPDX-License-Identifier: MIT
#include "quantity/number.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace driftwarden {

std::optional<double> number_from_any_length(std::string_view text) {
  if (text.starts_with('+')) {
    text.remove_prefix(1);
    if (text.starts_with('-')) return std::nullopt;
  }
  double value = 0;
  const char* const end = text.data() + text.size();
  const auto [stop, fault] = std::from_chars(text.data(), end, value);
  // from_chars also reads "inf" and "nan", which are no figures here.
  if (fault != std::errc{} || stop != end || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<double> number_of_any_form(std::string_view text) { return number_from(text); }

std::string shortest(double value) {
  if (std::isnan(value)) return {};
  if (value == 0) return "0";  // also for -0.0
  const double magnitude = std::fabs(value);
  const bool written_out = magnitude >= 1e-6 && magnitude < 1e16;
  std::array<char, 64> buffer{};
  const auto format = written_out ? std::chars_format::fixed : std::chars_format::scientific;
  const auto [end, fault] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, format);
  return {buffer.data(), end};
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "quantity/rounding.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <string_view>

#include "quantity/limit.hpp"
#include "quantity/number.hpp"

namespace driftwarden {

namespace {

// A number as it is written down: 0.digits · 10^point, so "0.05" is digits "5", point -1. Zero has no digits.
struct Decimal {
  bool negative = false;
  std::string digits;
  int point = 0;
};

// The shortest decimal text that reads back to the same double, taken apart. Finite numbers only.
Decimal decimal_of(double value) {
  if (value == 0) return {};
  std::array<char, 32> buffer{};
  const auto [end, fault] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::fabs(value), std::chars_format::scientific);
  const std::string_view text(buffer.data(), static_cast<std::size_t>(end - buffer.data()));  // "d.ddde+xx"
  const std::size_t mark = text.find('e');
  const std::size_t exponent_begin = mark + (text[mark + 1] == '+' ? 2 : 1);  // from_chars takes no '+'
  int exponent = 0;
  std::from_chars(text.data() + exponent_begin, text.data() + text.size(), exponent);
  Decimal decimal{value < 0, std::string(text.substr(0, mark)), exponent + 1};
  std::erase(decimal.digits, '.');
  return decimal;
}

void add_one_to_the_last_digit(Decimal& decimal) {
  while (!decimal.digits.empty() && decimal.digits.back() == '9') decimal.digits.pop_back();
  if (decimal.digits.empty()) {
    decimal.digits = "1";
    ++decimal.point;
  } else {
    ++decimal.digits.back();
  }
}

// Keeps `count` digits (none or less: nothing but perhaps a carry), half away from zero.
void keep_digits(Decimal& decimal, int count) {
  const auto size = static_cast<int>(decimal.digits.size());
  if (count >= size) return;
  if (count < 0) {
    decimal = {};
    return;
  }
  const auto kept = static_cast<std::size_t>(count);
  const bool up = decimal.digits[kept] >= '5';
  decimal.digits.resize(kept);
  if (up) {
    add_one_to_the_last_digit(decimal);
  } else if (decimal.digits.empty()) {
    decimal = {};
  }
}

std::string written_out(const Decimal& decimal, int decimals) {
  const int size = static_cast<int>(decimal.digits.size());
  const auto digit_at = [&](int place) {  // counted from the point: 0 is tenths, -1 is ones
    const int i = decimal.point + place;
    return i >= 0 && i < size ? decimal.digits[static_cast<std::size_t>(i)] : '0';
  };
  std::string text = decimal.negative && size > 0 ? "-" : "";
  for (int place = -std::max(decimal.point, 1); place < 0; ++place) text += digit_at(place);
  if (decimals > 0) text += '.';
  for (int place = 0; place < decimals; ++place) text += digit_at(place);
  return text;
}

std::string not_finite(double value) {
  if (std::isnan(value)) return {};
  return value < 0 ? "-inf" : "inf";
}

}  // namespace

std::string with_decimals(double value, int decimals) {
  if (!std::isfinite(value)) return not_finite(value);
  Decimal decimal = decimal_of(value);
  decimals = std::max(decimals, 0);
  keep_digits(decimal, decimal.point + decimals);
  return written_out(decimal, decimals);
}

std::string with_significant_digits(double value, int digits) {
  if (!std::isfinite(value)) return not_finite(value);
  Decimal decimal = decimal_of(value);
  digits = std::max(digits, 1);
  keep_digits(decimal, digits);
  return written_out(decimal, decimal.digits.empty() ? 0 : std::max(digits - decimal.point, 0));
}

std::string with_decimals_beyond(double value, int decimals, double limit) {
  std::string text = with_decimals(value, decimals);
  if (!std::isfinite(value) || std::isnan(limit)) return text;
  const Side side = side_of_limit(value, limit);
  // Ends at the latest when the text is the number itself.
  while (side_of_limit(number_from(text).value_or(value), limit) != side) text = with_decimals(value, ++decimals);
  return text;
}

std::string signed_percent(double ratio, int decimals) {
  const std::string figure = with_decimals(100 * ratio, decimals);
  const bool is_none = figure.find_first_of("123456789") == std::string::npos;
  return (ratio > 0 && !is_none ? "+" : "") + figure + " %";
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

}  // namespace driftwarden

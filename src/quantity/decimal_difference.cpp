// SPDX-License-Identifier: MIT
#include "quantity/decimal_difference.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "quantity/number.hpp"

namespace driftwarden {
namespace {

constexpr double most_digits = 1e15;

// How many decimals a figure has, written out without an exponent; none where it can't be.
std::optional<std::size_t> decimals_of(double figure) {
  const std::string text = shortest(figure);
  if (text.empty() || text.find('e') != std::string::npos) return std::nullopt;
  const std::size_t point = text.find('.');
  return point == std::string::npos ? 0 : text.size() - point - 1;
}

// The figure times a power of ten, which makes a whole number of it.
std::optional<std::int64_t> whole(double figure, std::size_t decimals) {
  if (!(std::abs(figure) * power_of_ten[decimals] < most_digits)) return std::nullopt;
  std::string digits = shortest(figure);
  const std::size_t point = digits.find('.');
  const std::size_t has = point == std::string::npos ? 0 : digits.size() - point - 1;
  if (point != std::string::npos) digits.erase(point, 1);
  digits.append(decimals - has, '0');
  std::int64_t number = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return read.ec == std::errc() ? std::optional(number) : std::nullopt;
}

}  // namespace

double decimal_difference(double a, double b) {
  const auto of_a = decimals_of(a);
  const auto of_b = decimals_of(b);
  if (!of_a || !of_b) return a - b;
  const std::size_t decimals = std::max(*of_a, *of_b);
  if (decimals >= power_of_ten.size()) return a - b;
  const auto whole_a = whole(a, decimals);
  const auto whole_b = whole(b, decimals);
  if (!whole_a || !whole_b) return a - b;
  return static_cast<double>(*whole_a - *whole_b) / power_of_ten[decimals];
}

}  // namespace driftwarden

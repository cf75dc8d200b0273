// SPDX-License-Identifier: MIT
#include "driftwarden/report/figure_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <string_view>

namespace driftwarden {
namespace {

// Eight decimal digits of a number below 10^8, the first in the lowest byte. How: halves of the number side by side,
// then quarters, then single digits; each division is a multiplication that is exact in its range.
[[gnu::always_inline]] inline std::uint64_t eight_digits(std::uint64_t number) {
  constexpr std::uint64_t noughts = 0x3030303030303030U;
  const std::uint64_t fours = number / 10000 | (number % 10000) << 32U;
  const std::uint64_t hundreds = ((fours * 10486) >> 20U) & 0x0000007F0000007FU;
  const std::uint64_t twos = hundreds | (fours - 100 * hundreds) << 16U;
  const std::uint64_t tens = ((twos * 103) >> 10U) & 0x000F000F000F000FU;
  return (tens | (twos - 10 * tens) << 8U) | noughts;
}

constexpr std::size_t most_digits = 17;

// Writes a number below 10^17 without noughts before it; behind its digits.
char* write_digits(char* out, std::uint64_t number) {
  constexpr std::uint64_t ten_8 = 100'000'000;
  const std::uint64_t words[] = {eight_digits(number / ten_8 / ten_8), eight_digits(number / ten_8 % ten_8),
                                 eight_digits(number % ten_8)};
  std::array<char, sizeof words> text;
  std::memcpy(text.data(), words, sizeof words);
  const char* first = text.data() + text.size() - most_digits;
  const char* const last = text.data() + text.size() - 1;
  while (first < last && *first == '0') ++first;
  return std::copy(first, last + 1, out);
}

// Writes a decimal number with digits behind its point, from 0.001 on; behind its text.
char* write_decimal(char* out, std::uint64_t digits, int exponent) {
  std::array<char, most_digits> text;
  const auto size = write_digits(text.data(), digits) - text.data();
  const std::ptrdiff_t whole = size + exponent;  // digits before the point
  if (whole <= 0) {
    *out++ = '0';
    *out++ = '.';
    out = std::fill_n(out, -whole, '0');
    return std::copy_n(text.data(), size, out);
  }
  out = std::copy_n(text.data(), whole, out);
  *out++ = '.';
  return std::copy_n(text.data() + whole, size - whole, out);
}

}  // namespace

// In the range of most figures the shortest digits come from fmt's Dragonbox, a third of the time that std::to_chars
// takes, and stand as std::to_chars would write them; it writes all others.
void append_figure(std::string& out, double figure) {
  if (!std::isfinite(figure)) return;
  std::array<char, 32> text;
  char* end = text.data();
  const double magnitude = std::fabs(figure);
  const bool is_usual = magnitude >= 1e-3 && magnitude < 1e15;
  const auto decimal = is_usual ? fmt::detail::dragonbox::to_decimal(magnitude)
                                : decltype(fmt::detail::dragonbox::to_decimal(magnitude)){};
  if (decimal.exponent < 0) {
    if (figure < 0) *end++ = '-';
    end = write_decimal(end, decimal.significand, decimal.exponent);
  } else {
    end = std::to_chars(end, text.data() + text.size(), figure).ptr;
  }
  out.append(text.data(), end);
}

}  // namespace driftwarden

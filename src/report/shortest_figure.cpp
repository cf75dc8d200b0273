// SPDX-License-Identifier: MIT
#include "report/shortest_figure.hpp"

#include <dragonbox/dragonbox.h>

#include <algorithm>
#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace driftwarden {
namespace {

// Eight digits as eight characters, the first in the lowest byte. Fours, pairs and single digits are parted at once,
// each by a multiplication in place of a division.
std::uint64_t eight_characters(std::uint64_t number) {
  constexpr std::uint64_t noughts = 0x3030303030303030U;
  const std::uint64_t fours = number / 10000 | (number % 10000) << 32U;
  const std::uint64_t hundreds = (fours * 10486 >> 20U) & 0x0000007F0000007FU;
  const std::uint64_t pairs = hundreds | (fours - 100 * hundreds) << 16U;
  const std::uint64_t tens = (pairs * 103 >> 10U) & 0x000F000F000F000FU;
  return noughts | tens | (pairs - 10 * tens) << 8U;
}

// Writes the digits of a whole number before a place, with noughts before them; where they begin.
char* digits_before(char* at, std::uint64_t number) {
  for (;; number /= 100000000) {
    const std::uint64_t characters = eight_characters(number % 100000000);
    const bool is_little_endian = std::endian::native == std::endian::little;
    const std::uint64_t in_memory = is_little_endian ? characters : __builtin_bswap64(characters);
    std::memcpy(at -= 8, &in_memory, 8);
    if (number < 100000000) {
      const std::uint64_t digits = characters & 0x0F0F0F0F0F0F0F0FU;
      return at + (digits == 0 ? 7 : std::countr_zero(digits) / 8);
    }
  }
}

// Writes a number that has so many decimals, at least one, of which at most two are zeros behind the point.
char* put_with_point(char* at, std::uint64_t digits, std::ptrdiff_t decimals) {
  constexpr std::ptrdiff_t most = 24;
  std::array<char, most + most> text;
  text.fill('0');
  char* const end = text.data() + most;
  char* begin = digits_before(end, digits);
  begin = std::min(begin, end - decimals - 1);  // at least one digit before the point
  const std::ptrdiff_t before_point = end - begin - decimals;
  std::memcpy(at, begin, most);
  at[before_point] = '.';
  std::memcpy(at + before_point + 1, end - decimals, most);
  return at + (end - begin) + 1;
}

}  // namespace

// Below 100000 whole numbers stand as such, and not with an exponent, in the shortest text. In the range of most
// figures a text with a point is the shortest; its digits come from Dragonbox, in less time than std::to_chars takes,
// which writes all others.
char* put_figure(char* at, double figure) {
  if (!std::isfinite(figure)) return at;
  const double magnitude = std::fabs(figure);
  const bool is_whole =
      magnitude < 1e5 && std::trunc(magnitude) == magnitude && (magnitude > 0 || !std::signbit(figure));
  if (is_whole) return std::to_chars(at, at + longest_figure, static_cast<int>(figure)).ptr;
  if (magnitude >= 1e-3 && magnitude < 1e15) {
    const auto decimal = jkj::dragonbox::to_decimal(magnitude);
    // From 100000 on it may be a whole number.
    if (decimal.exponent < 0) {
      if (figure < 0) *at++ = '-';
      return put_with_point(at, decimal.significand, -decimal.exponent);
    }
  }
  return std::to_chars(at, at + longest_figure, figure).ptr;
}

void append_figure(std::string& out, double figure) {
  std::array<char, longest_figure> text;
  out.append(text.data(), put_figure(text.data(), figure));
}

}  // namespace driftwarden

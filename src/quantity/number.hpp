// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <bit>
#include <cfloat>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>

namespace driftwarden {

// A decimal number, strict: all of the text, finite, one optional sign, no blanks inside, '.' as decimal sign with a
// digit on at least one side, an optional exponent. No "inf", no "nan", no hexadecimal, nothing out of a double's
// range. Correctly rounded. Empty: not a number.
std::optional<double> number_from(std::string_view text);

// The fewest digits that read back to the same double, written out between 1e-6 and 1e16 and with an exponent beyond;
// whole numbers without ".0", both zeros as "0"; "" for NaN.
std::string shortest(double value);

// The powers of ten that a double holds without any rounding and whose quotients with 15 digits are rounded once.
inline constexpr std::array<double, 16> power_of_ten = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                        1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

// As number_from, for texts of any length and with exponents; slower.
std::optional<double> number_from_any_length(std::string_view text);

// As number_from, for an optional sign and at most 15 digits with at most one point among them; empty for all else,
// also where that is a number.
//
// Why the result is correctly rounded: the digits without the point are an integer below 10^15 < 2^53 and the power of
// ten is at most 10^15 < 10^22, so both are doubles without any rounding. Their quotient is then rounded just once, by
// an IEEE 754 division, which gives the double nearest to the true quotient: the number that was written.
inline std::optional<double> number_from_few_digits(std::string_view text) {
  static_assert(FLT_EVAL_METHOD == 0, "a division in a wider format would round twice");
  constexpr std::size_t most_digits = 15;
  const bool negative = text.starts_with('-');
  if (negative || text.starts_with('+')) text.remove_prefix(1);
  if (text.size() > most_digits + 1) return std::nullopt;
  std::int64_t digits = 0;
  std::size_t count = 0;
  std::size_t before_point = most_digits + 1;
  for (const char c : text) {
    if (c >= '0' && c <= '9') {
      digits = 10 * digits + (c - '0');
      ++count;
    } else if (c == '.' && before_point > most_digits) {
      before_point = count;
    } else {
      return std::nullopt;
    }
  }
  if (count == 0 || count > most_digits) return std::nullopt;
  const std::size_t decimals = before_point > most_digits ? 0 : count - before_point;
  const double value = static_cast<double>(digits) / power_of_ten[decimals];
  return negative ? -value : value;
}

inline std::optional<double> number_from(std::string_view text) {
  const std::optional<double> quick = number_from_few_digits(text);
  return quick ? quick : number_from_any_length(text);
}

// As number_from, not inlined.
std::optional<double> number_of_any_form(std::string_view text);

// A number of at most eight digits: digits / 10^decimals.
struct FewDigits {
  std::uint64_t digits = 0;
  std::size_t decimals = 0;
};

// Of two to eight characters, digits with at most one point among them, that stand in a longer text: 8 bytes from its
// begin must be readable, whatever its size. Empty for all else.
//
// How: up to 8 characters are one word, its last character moved to the top byte and noughts put before the first. A
// point is taken out by moving the bytes below it up by one. Then all eight digits are joined at once: neighbours to
// pairs, pairs to fours, fours to eight.
[[gnu::always_inline]] inline std::optional<FewDigits> few_digits_from_padded(std::string_view text) {
  constexpr std::uint64_t noughts = 0x3030303030303030U;
  constexpr std::uint64_t points = 0x2E2E2E2E2E2E2E2EU;
  constexpr std::uint64_t ones = 0x0101010101010101U;
  const std::size_t size = text.size();
  if (std::endian::native != std::endian::little || size < 2 || size > 8) return std::nullopt;
  std::uint64_t word = 0;
  std::memcpy(&word, text.data(), 8);
  word <<= 8 * (8 - size);
  if (size < 8) word |= noughts >> (8 * size);
  std::size_t decimals = 0;
  const std::uint64_t differs = word ^ points;
  const std::uint64_t point = (differs - ones) & ~differs & (ones << 7U);  // its lowest bit marks the first point
  if (point != 0) {
    const auto at = static_cast<unsigned>(std::countr_zero(point)) / 8;
    decimals = 7 - at;
    const std::uint64_t below = word & ((std::uint64_t{1} << (8 * at)) - 1);
    const std::uint64_t above = at == 7 ? 0 : word >> (8 * at + 8) << (8 * at + 8);
    word = above | (below << 8U) | 0x30U;
  }
  const bool all_digits = ((word & 0xF0F0F0F0F0F0F0F0U) |
                           (((word + 0x0606060606060606U) & 0xF0F0F0F0F0F0F0F0U) >> 4U)) == 0x3333333333333333U;
  if (!all_digits) return std::nullopt;  // a sign, an exponent, or no number
  word = ((word & 0x0F0F0F0F0F0F0F0FU) * 2561) >> 8U;
  word = ((word & 0x00FF00FF00FF00FFU) * 6553601) >> 16U;
  word = ((word & 0x0000FFFF0000FFFFU) * 42949672960001U) >> 32U;
  return FewDigits{word, decimals};
}

// As number_from, for text that stands in a longer one: 8 bytes from its begin must be readable, whatever its size.
// Correctly rounded, for the reason given at number_from_few_digits.
[[gnu::always_inline]] inline std::optional<double> number_from_padded(std::string_view text) {
  const std::optional<FewDigits> few = few_digits_from_padded(text);
  if (!few) return number_of_any_form(text);
  return static_cast<double>(few->digits) / power_of_ten[few->decimals];
}

}  // namespace driftwarden

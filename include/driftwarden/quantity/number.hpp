// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cfloat>
#include <cstddef>
#include <cstdint>
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
  constexpr std::array<double, most_digits + 1> power_of_ten = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                                1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
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

}  // namespace driftwarden

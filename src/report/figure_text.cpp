// SPDX-License-Identifier: MIT
#include "driftwarden/report/figure_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace driftwarden {
namespace {

static_assert(std::endian::native == std::endian::little, "digits are written as words with the first one lowest");
constexpr std::uint64_t noughts = 0x3030303030303030U;

// Eight decimal digits of a number below 10^8, the first in the lowest byte. How: halves of the number side by side,
// then quarters, then single digits; each division is a multiplication that is exact in its range.
[[gnu::always_inline]] inline std::uint64_t eight_digits(std::uint64_t number) {
  const std::uint64_t fours = number / 10000 | (number % 10000) << 32U;
  const std::uint64_t hundreds = ((fours * 10486) >> 20U) & 0x0000007F0000007FU;
  const std::uint64_t twos = hundreds | (fours - 100 * hundreds) << 16U;
  const std::uint64_t tens = ((twos * 103) >> 10U) & 0x000F000F000F000FU;
  return (tens | (twos - 10 * tens) << 8U) | noughts;
}

// A number below 10^17, written.
class Digits {
 public:
  explicit Digits(std::uint64_t number) {
    constexpr std::uint64_t ten_8 = 100'000'000;
    const std::uint64_t words[] = {eight_digits(number / ten_8 / ten_8), eight_digits(number / ten_8 % ten_8),
                                   eight_digits(number % ten_8)};
    std::memcpy(text_.data(), words, sizeof words);
    const std::size_t word = words[0] != noughts ? 0 : words[1] != noughts ? 1 : 2;
    first_ = 8 * word + static_cast<std::size_t>(std::countr_zero(words[word] ^ noughts)) / 8;
  }
  // How many, without noughts before them.
  std::size_t size() const { return end - first_; }
  // Copies them from one on, and what lies behind: always 17 bytes, which is quicker than as many as there are.
  void copy(char* out, std::size_t from) const { std::memcpy(out, text_.data() + first_ + from, most); }

  static constexpr std::size_t most = 17;

 private:
  static constexpr std::size_t end = 24;
  std::array<char, end + most> text_{};
  std::size_t first_;
};

// Writes a decimal number with digits behind its point, from 0.001 on, into 36 bytes or more; behind its text.
char* write_decimal(char* out, std::uint64_t number, int exponent) {
  const Digits digits(number);
  const std::ptrdiff_t whole = static_cast<std::ptrdiff_t>(digits.size()) + exponent;  // digits before the point
  if (whole <= 0) {
    std::copy_n("0.00", 4, out);
    out += 2 - whole;
    digits.copy(out, 0);
    return out + digits.size();
  }
  digits.copy(out, 0);
  out[whole] = '.';
  digits.copy(out + whole + 1, static_cast<std::size_t>(whole));
  return out + digits.size() + 1;
}

}  // namespace

// Below 100000 whole numbers stand as such, and not with an exponent, in the shortest text. In the range of most
// figures the shortest digits come from fmt's Dragonbox, a third of the time that std::to_chars takes, and stand as
// std::to_chars would write them; it writes all others.
void append_figure(std::string& out, double figure) {
  if (!std::isfinite(figure)) return;
  std::array<char, 40> text;
  char* end = text.data();
  const double magnitude = std::fabs(figure);
  const bool is_whole =
      magnitude < 1e5 && std::trunc(magnitude) == magnitude && (magnitude > 0 || !std::signbit(figure));
  const bool is_usual = !is_whole && magnitude >= 1e-3 && magnitude < 1e15;
  const auto decimal = is_usual ? fmt::detail::dragonbox::to_decimal(magnitude)
                                : decltype(fmt::detail::dragonbox::to_decimal(magnitude)){};
  if (is_whole) {
    end = std::to_chars(end, text.data() + text.size(), static_cast<int>(figure)).ptr;
  } else if (decimal.exponent < 0) {
    if (figure < 0) *end++ = '-';
    end = write_decimal(end, decimal.significand, decimal.exponent);
  } else {
    end = std::to_chars(end, text.data() + text.size(), figure).ptr;
  }
  out.append(text.data(), end);
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "driftwarden/report/figure_text.hpp"

#include <fmt/format.h>

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

// The digits of a number below 10^17, without noughts before them.
class Digits {
 public:
  explicit Digits(std::uint64_t number) {
    constexpr std::uint64_t ten_8 = 100'000'000;
    const std::uint64_t words[] = {eight_digits(number / ten_8 / ten_8), eight_digits(number / ten_8 % ten_8),
                                   eight_digits(number % ten_8)};
    std::memcpy(text_.data(), words, sizeof words);
    while (begin_ + 1 < text_.size() && text_[begin_] == '0') ++begin_;
  }
  std::string_view text() const { return {text_.data() + begin_, text_.size() - begin_}; }

 private:
  std::array<char, 24> text_;
  std::size_t begin_ = 7;  // of the first eight digits only the last can be one
};

// Digits with a point in them; `whole` digits stand before it, where that is below 1 noughts behind it.
void append_with_point(std::string& out, std::string_view digits, std::ptrdiff_t whole) {
  if (whole > 0) {
    out.append(digits.substr(0, static_cast<std::size_t>(whole)));
    out += '.';
    out.append(digits.substr(static_cast<std::size_t>(whole)));
  } else {
    out += "0.";
    out.append(static_cast<std::size_t>(-whole), '0');
    out.append(digits);
  }
}

}  // namespace

// In the range of most figures the shortest digits come from fmt's Dragonbox, a third of the time that std::to_chars
// takes, and stand as std::to_chars would write them; it writes all others.
void append_figure(std::string& out, double figure) {
  if (!std::isfinite(figure)) return;
  const double magnitude = std::fabs(figure);
  if (magnitude >= 1e-3 && magnitude < 1e15) {
    const auto decimal = fmt::detail::dragonbox::to_decimal(magnitude);
    if (decimal.exponent < 0) {
      const Digits digits(decimal.significand);
      if (figure < 0) out += '-';
      return append_with_point(out, digits.text(),
                               static_cast<std::ptrdiff_t>(digits.text().size()) + decimal.exponent);
    }
  }
  std::array<char, 32> text;
  const auto [end, ignored] = std::to_chars(text.data(), text.data() + text.size(), figure);
  out.append(text.data(), end);
}

}  // namespace driftwarden

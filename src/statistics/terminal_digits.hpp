// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "statistics/bounds.hpp"

namespace driftwarden {

// How often each last digit was read; the place in the array is the digit.
using DigitCounts = std::array<std::size_t, 10>;

// Below this number of readings the exact distribution takes the place of χ².
inline constexpr std::size_t enough_digits_for_chi_squared = 50;

// The last digits a display can show that steps by so many units of its last digit: 2 shows even digits, 5 shows 0 and
// 5, 1 shows all.
std::vector<std::size_t> possible_last_digits(unsigned step);

struct DigitCheck {
  std::size_t readings = 0;    // with a possible digit
  std::size_t impossible = 0;  // readings the display can't have shown
  double chi_squared = no_figure;
  double dof = 0;
  double upper_p = no_figure;  // so uneven or more: preferred digits
  double lower_p = no_figure;  // so even or more: more even than chance
  bool is_exact = false;
  std::size_t on_zero_or_five = 0;
  double zero_or_five_p = no_figure;  // so many or more on 0 and 5; NaN where the display shows nothing else
};

// Are last digits spread as chance spreads them? A question to a person, never a proof.
//
//   χ² = Σ (O - N/m)² / (N/m),   m - 1 degrees of freedom
//
//   O        count of each digit the display can show      m  how many those are      N  readings
//   Source   Pearson's test; for N < 50 all partitions of N over m digits are added up instead
//   Valid    readings that spread over ten display steps or more; the true display step (a display that steps by 2
//            and is taken to step by 1 is a false accusation). Empty: no readings, or one possible digit.
//   Example  18 7 9 8 6 17 8 9 10 8  ->  χ² 15.2, p 0.0856; 35 of 100 on 0 and 5: p 0.00034
std::optional<DigitCheck> check_last_digits(const DigitCounts& counts, unsigned display_step = 1);

}  // namespace driftwarden

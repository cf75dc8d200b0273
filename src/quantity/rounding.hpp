// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>

namespace driftwarden {

// Figures as a person would write them. Half goes away from zero on the shortest decimal text (2.675 -> 2.68).
// Zero never has a sign, and no significant digits but "0". NaN gives "".
std::string with_decimals(double value, int decimals);
std::string with_significant_digits(double value, int digits);

// with_decimals, but with as many more decimals as it takes to show on which side of the limit the figure lies:
// 5.04 against a limit of 5 at one decimal is "5.04".
std::string with_decimals_beyond(double value, int decimals, double limit);

// A ratio with its sign, "+5.34 %", "-0.40 %"; zero, also what rounds to it, has none.
std::string signed_percent(double ratio, int decimals);

// "1 sample", "3 samples".
std::string counted(std::size_t count, const std::string& one, const std::string& many);

}  // namespace driftwarden

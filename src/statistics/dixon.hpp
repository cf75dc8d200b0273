// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "statistics/outliers.hpp"

namespace driftwarden {

// The ratio exceeded by chance with this probability when one end is named beforehand; for either end pass half the
// significance. Tabulated: 0.10, 0.05, 0.025, 0.01, 0.005 and 3 to 30 values; NaN otherwise.
double dixon_critical(std::size_t n, double one_sided_significance);

// The gap beside the suspect value as a share of the range, by number of values. Sorted from the suspect's far end,
// largest suspected:
//
//   n 3–7    r10 = (x_n - x_{n-1}) / (x_n - x_1)
//   n 8–10   r11 = (x_n - x_{n-1}) / (x_n - x_2)
//   n 11–13  r21 = (x_n - x_{n-2}) / (x_n - x_2)
//   n 14–30  r22 = (x_n - x_{n-2}) / (x_n - x_3)
//
//   x        values in ascending order; for the smallest as suspect the order is turned round
//   Source   Dixon, Biometrics 9 (1953) 74
//   Valid    3 to 30 normally distributed values that are not all equal
//   Example  0.189 0.167 0.187 0.183 0.186 0.182 0.181 0.184 0.181 0.177, smallest  ->  r11 = 0.500
//
// Held against its critical value. Empty: values or significance outside the table, no range, or a value not finite.
// "Q test at 95 %" of chemistry books is either_end at 0.05.
std::optional<OutlierCheck> dixon(std::span<const double> values, Suspect suspect, double significance);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

namespace driftwarden {

// The largest difference that may be nothing but what rounding left of equal values.
//
//   d = 1e-12 · max(1, |x|)
//
//   |x|      the largest magnitude among the values
//   Source   choice of this project. A double has an ulp of at most 2.2e-16 of its value, and no way from a reading to
//            a figure rounds a thousand times. The 1 is on_a_limit_of_zero: a deviation that should be 0 comes out as
//            1e-14 %.
//   Valid    figures in inside units or percent, in which 1e-12 is far below anything measured; NaN is a missing value
//   Example  2.010 and the double after it, 4.4e-16 apart: equal, for they differ by less than 2.01e-12
double rounding_noise(std::span<const double> values);

// The values with those that differ by no more than rounding noise made equal, to the smallest of them; all others as
// they are.
std::vector<double> without_rounding_noise(std::span<const double> values);

}  // namespace driftwarden

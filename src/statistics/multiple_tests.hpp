// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

namespace driftwarden {

// p values adjusted for the number of tests, in the order given. Compare each with the level of a single test, and say
// how many tests were made.

// So that the chance of any false signal stays within the level.
//
//   adjusted_(i) = max over j ≤ i of min(1, (m - j + 1) p_(j))
//
//   p_(j)    j-th smallest of m
//   Source   Holm, Scand. J. Stat. 6 (1979) 65
//   Valid    any tests, dependent or not
//   Example  .001 .012 .020 .20 .5  ->  .005 .048 .06 .4 .5
std::vector<double> holm(std::span<const double> p_values);

}  // namespace driftwarden

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

// So that the share of false signals among the signals stays within the level.
//
//   adjusted_(i) = min over j ≥ i of min(1, m p_(j) / j)
//
//   p_(j)    j-th smallest of m
//   Source   Benjamini and Hochberg, J. R. Stat. Soc. B 57 (1995) 289
//   Valid    independent tests, or positively dependent ones
//   Example  .001 .012 .020 .20 .5  ->  .005 .030 .0333 .25 .5
std::vector<double> benjamini_hochberg(std::span<const double> p_values);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// The difference of two figures that were written as decimals, as a person takes one from the other on paper.
//
//   d = (A - B) / 10^k          a = A / 10^k, b = B / 10^k
//
//   A, B   whole numbers, k the more of the decimals of the two
//   Source   decimals are whole numbers over a power of ten; their difference is one, too, and is rounded once, to the
//            double nearest to it
//   Valid    k ≤ 15 and A, B < 10^15, by the fewest digits that read back to a and b; else a - b as doubles have it
//   Example  14.718 - 14.1  ->  0.618, where doubles have 0.6180000000000003
double decimal_difference(double a, double b);

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <span>

namespace driftwarden {

// The middle value, or the mean of the two middle ones, of sorted readings. (Boost.Accumulators' median is a running
// estimate, wrong for few values.) NaN for no values or a NaN among them.
double median(std::span<const double> values);

// Where the rank of a quantile lies among n sorted values: (n + 1)p, (n - 1)p + 1, or (n + 1/3)p + 1/3.
enum class QuantileRank { n_plus_one, n_minus_one, median_unbiased };

// Quantile of readings.
//
//   q = x_(k) + f · (x_(k+1) - x_(k)),   k + f = rank
//
//   x_(k)    k-th smallest value          f  fraction of the rank, 0 ≤ f < 1
//   Source   NIST/SEMATECH e-Handbook 7.2.6.2 (n_plus_one); Hyndman and Fan, Am. Stat. 50 (1996) 361, types 6, 7, 8
//   Valid    n ≥ 1, 0 ≤ p ≤ 1; a rank outside 1 to n takes the smallest or the largest value
//   Example  p 0.9 of the handbook's 12 wafers  ->  95.1981 (n_plus_one)
double quantile(std::span<const double> values, double probability, QuantileRank rank);

}  // namespace driftwarden

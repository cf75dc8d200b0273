// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "statistics/bounds.hpp"

namespace driftwarden {

// Which value is under suspicion: one named before looking at the data, or whichever of the two ends is farther out.
// The latter is a two-sided test.
enum class Suspect { largest, smallest, either_end };

// The value farthest out and whether it is too far. A flag for a person to look at: no value is ever left out by it.
struct OutlierCheck {
  std::size_t index = 0;  // in the values as given
  double statistic = no_figure;
  double critical = no_figure;
  bool significant = false;  // statistic > critical
};

// Largest distance from the mean that chance explains.
//
//   G_crit = (n - 1)/√n · √( t² / (n - 2 + t²) ),   t = upper α/n point (α/2n for either end), n - 2 degrees of freedom
//
//   α        significance level
//   Source   Grubbs, Technometrics 11 (1969) 1; NIST/SEMATECH e-Handbook 1.3.5.17.1
//   Valid    n ≥ 3 normally distributed values; NaN otherwise. No G can exceed (n - 1)/√n, 1.155 at n = 3.
//   Example  n 8, α 0.05, largest  ->  2.032
double grubbs_critical(std::size_t n, Suspect suspect, double significance);

// Distance from the mean in units of s, against grubbs_critical. Empty: n < 3, no spread, or a value not finite.
// Example: the e-Handbook's eight uranium readings, largest: G 2.4687 > 2.032, 245.57 is an outlier.
std::optional<OutlierCheck> grubbs(std::span<const double> values, Suspect suspect, double significance);

}  // namespace driftwarden

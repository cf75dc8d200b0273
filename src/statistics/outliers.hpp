// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

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

// Several outliers at once, which would hide each other from a single test.
struct ExtremeDeviates {
  std::vector<OutlierCheck> steps;  // step i: the farthest of what i steps before left over
  std::size_t outliers = 0;         // the first so many steps name the outliers
};

// Generalized extreme studentized deviates.
//
//   R_i = max|x - x̄| / s of what is left        λ_i = (n - i)·t / √( (n - i - 1 + t²)(n - i + 1) )
//   outliers = largest i with R_i > λ_i
//
//   t        upper α/(2(n - i + 1)) point, n - i - 1 degrees of freedom
//   Source   Rosner, Technometrics 25 (1983) 165; NIST/SEMATECH e-Handbook 1.3.5.17.3
//   Valid    normally distributed values; at most n - 2 steps; the handbook advises n ≥ 15, better 25
//   Example  Rosner's 54 values, 10 steps, α 0.05  ->  3 outliers, though R_1 and R_2 lie below their λ
ExtremeDeviates extreme_deviates(std::span<const double> values, std::size_t most_outliers, double significance);

}  // namespace driftwarden

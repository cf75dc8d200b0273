// SPDX-License-Identifier: MIT
#include "statistics/welch_satterthwaite.hpp"

#include <algorithm>
#include <cmath>

#include "statistics/bounds.hpp"

namespace driftwarden {

double effective_degrees_of_freedom(std::span<const UncertaintyContribution> contributions) {
  // Relative to the largest amount, so that fourth powers of small amounts don't vanish.
  double largest = 0;
  for (const auto& part : contributions) {
    if (!(part.dof > 0)) return no_figure;
    largest = std::max(largest, std::fabs(part.signed_amount()));
  }
  if (largest == 0) return std::numeric_limits<double>::infinity();
  double variance = 0;
  double divided = 0;
  for (const auto& part : contributions) {
    const double share = part.signed_amount() / largest;
    variance += share * share;
    divided += share * share * share * share / part.dof;
  }
  return variance * variance / divided;
}

double whole_degrees_of_freedom(double dof) {
  constexpr double rounding = 1e-9;
  const double whole = std::floor(dof * (1 + rounding));
  return whole < 1 ? dof : whole;
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace driftwarden {

// Probability that n readings on a display all show the same figure.
//
//   P = (1/δ) ∫ [ Φ((x + δ)/σ) - Φ(x/σ) ]ⁿ dx
//
//   σ, δ     standard deviation and display step, one unit (passed as σ/δ); the true value lies anywhere in a step
//   Source   derived; for σ/δ ≥ 2 and n ≤ 5 within 5 % of (δ/σ)^(n-1) n^(-1/2) (2π)^(-(n-1)/2)
//   Valid    independent normal readings, n ≥ 1, σ/δ > 0, NaN otherwise. σ from independent history.
//   Example  σ/δ 2: 0.1396, 0.0225, 0.00068 for n 2, 3, 5
double probability_of_identical_readings(std::size_t n, double sigma_in_steps);

// On so coarse a display identical readings are what is to be expected, and say nothing.
inline constexpr double coarse_display_sigma_in_steps = 0.5;

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "statistics/duplicated_blocks.hpp"

#include <cmath>
#include <numbers>

#include "quantity/elementary.hpp"
#include "statistics/bounds.hpp"
#include "statistics/normal_distribution.hpp"

namespace driftwarden {

double probability_of_matching_readings(std::size_t n, double sigma_in_steps) {
  if (!(sigma_in_steps > 0) || std::isinf(sigma_in_steps)) return no_figure;
  constexpr double fine = 1.5;  // from here on the level's place in its step makes less than 1e-9
  if (sigma_in_steps >= fine) {
    // A difference of two readings, as wide as τ, is lost where it is less than what is left of the step.
    const double tau = sigma_in_steps * std::numbers::sqrt2;
    const double lost = tau * std::sqrt(2 / std::numbers::pi) * -elementary::expm1(-1 / (2 * tau * tau));
    return elementary::pow(2 * normal_cdf(1 / tau) - 1 - lost, static_cast<double>(n));
  }
  constexpr int phases = 32;
  const int reach = static_cast<int>(std::ceil(9 * sigma_in_steps)) + 1;
  double sum = 0;
  for (int phase = 0; phase < phases; ++phase) {
    const double level = (phase + 0.5) / phases - 0.5;
    double alike = 0;
    double below = normal_cdf((-reach - 0.5 - level) / sigma_in_steps);
    for (int step = -reach; step <= reach; ++step) {
      const double up_to = normal_cdf((step + 0.5 - level) / sigma_in_steps);
      alike += (up_to - below) * (up_to - below);
      below = up_to;
    }
    sum += elementary::pow(alike, static_cast<double>(n));
  }
  return sum / phases;
}

double alignments_among(std::size_t readings) {
  const auto n = static_cast<double>(readings);
  return n * (n - 1) / 2;
}

double expected_chance_blocks(double alignments, double probability_equal, std::size_t block_length) {
  return alignments * elementary::pow(probability_equal, static_cast<double>(block_length));
}

}  // namespace driftwarden

// SPDX-License-Identifier: MIT
#include "statistics/duplicated_blocks.hpp"

#include <cmath>

#include "quantity/elementary.hpp"
#include "statistics/bounds.hpp"

namespace driftwarden {

double probability_of_equal_readings(std::span<const std::size_t> counts_of_each_figure) {
  double n = 0;
  double squares = 0;
  for (const std::size_t count : counts_of_each_figure) {
    const auto times = static_cast<double>(count);
    n += times;
    squares += times * times;
  }
  return n > 0 ? squares / (n * n) : no_figure;
}

double alignments_among(std::size_t readings) {
  const auto n = static_cast<double>(readings);
  return n * (n - 1) / 2;
}

double expected_chance_blocks(double alignments, double probability_equal, std::size_t block_length) {
  return alignments * elementary::pow(probability_equal, static_cast<double>(block_length));
}

double probability_of_any_block(double expected) { return -elementary::expm1(-expected); }

std::size_t telling_block_length(double alignments, double probability_equal, double most_expected) {
  if (!(probability_equal > 0 && probability_equal < 1) || !(most_expected > 0)) return 0;
  if (alignments < most_expected) return 1;
  const double exact = elementary::log(most_expected / alignments) / elementary::log(probability_equal);
  return static_cast<std::size_t>(std::floor(exact)) + 1;
}

}  // namespace driftwarden

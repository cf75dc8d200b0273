// SPDX-License-Identifier: MIT
#include "statistics/duplicated_blocks.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "statistics/random_numbers.hpp"

namespace driftwarden::duplicated_blocks_test {
namespace {

TEST(DuplicatedBlocks, ExpectedAmongFourHundredReadings) {
  // own input: 400 readings, one in 12.5 alike; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  const double m = alignments_among(400);
  EXPECT_EQ(m, 79800);
  EXPECT_NEAR(expected_chance_blocks(m, 0.08, 3), 40.9, 0.05);
  EXPECT_NEAR(expected_chance_blocks(m, 0.08, 5), 0.261, 5e-4);
  EXPECT_NEAR(expected_chance_blocks(m, 0.08, 6), 0.0209, 5e-5);
  EXPECT_NEAR(expected_chance_blocks(m, 0.08, 8) / 1.33882e-4, 1, 1e-5);
}

TEST(DuplicatedBlocks, OfOneLevelAreAlikeAsOftenAsTheDisplayHidesTheScatter) {
  // own input: spreads in steps, and readings; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(probability_of_matching_readings(1, 2) / 0.139596, 1, 4e-6);
  EXPECT_NEAR(probability_of_matching_readings(5, 2) / 5.30115e-5, 1, 4e-6);
  EXPECT_NEAR(probability_of_matching_readings(3, 1) / 0.0198812, 1, 4e-6);
  EXPECT_NEAR(probability_of_matching_readings(5, 0.5) / 0.0276316, 1, 4e-6);
  EXPECT_NEAR(probability_of_matching_readings(10, 0.5) / 7.97887e-4, 1, 4e-6);
  EXPECT_TRUE(std::isnan(probability_of_matching_readings(5, 0)));
}

TEST(DuplicatedBlocks, ExpectedNumberAgreesWithRandomReadings) {
  // 60 readings of ten equally likely figures, blocks of two at different places, 4000 times. Alignments here are the
  // pairs of starts, 59·58/2; standard error about 0.08.
  test::RandomNumbers random(5);
  double found = 0;
  constexpr int books = 4000;
  for (int book = 0; book < books; ++book) {
    std::array<int, 60> figures{};
    for (int& figure : figures) figure = static_cast<int>(10 * random.uniform());
    for (std::size_t i = 0; i + 1 < figures.size(); ++i) {
      for (std::size_t j = i + 1; j + 1 < figures.size(); ++j) {
        found += figures[i] == figures[j] && figures[i + 1] == figures[j + 1] ? 1 : 0;
      }
    }
  }
  EXPECT_NEAR(found / books, expected_chance_blocks(alignments_among(59), 0.1, 2), 0.4);
}

// derived: two readings lie in one step of 1 if their difference d, of deviation √2 σ, leaves room: E max(1 - |d|, 0),
// which for a small σ is 1 - 2 σ / √π.
TEST(MatchingReadings, OfOnePairHaveAClosedForm) {
  EXPECT_NEAR(probability_of_matching_readings(1, 0.1), 1 - 0.2 / std::sqrt(std::acos(-1.0)), 1e-9);
}

}  // namespace
}  // namespace driftwarden::duplicated_blocks_test

// SPDX-License-Identifier: MIT
#include "statistics/terminal_digits.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "statistics/random_numbers.hpp"

namespace driftwarden::terminal_digits_test {
namespace {

// own input: computed with SciPy 1.10 by tests/support/computed_statistics.py.

// Invented counts; expected values computed with R chisq.test, SciPy and GSL, which agree.
constexpr DigitCounts heaped{18, 7, 9, 8, 6, 17, 8, 9, 10, 8};
constexpr DigitCounts even{11, 9, 10, 12, 8, 10, 9, 11, 10, 10};
constexpr DigitCounts step_of_two{20, 0, 21, 0, 19, 0, 20, 0, 20, 0};

TEST(TerminalDigits, AHeapOnZeroAndFiveHidesFromChiSquaredAlone) {
  const auto check = check_last_digits(heaped);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->readings, 100U);
  EXPECT_NEAR(check->chi_squared, 15.2, 1e-12);
  EXPECT_EQ(check->dof, 9);
  EXPECT_NEAR(check->upper_p, 0.0855867906, 1e-10);
  EXPECT_FALSE(check->is_exact);
  EXPECT_EQ(check->on_zero_or_five, 35U);
  EXPECT_NEAR(check->zero_or_five_p, 0.000336087162, 1e-12);
}

TEST(TerminalDigits, TooEvenIsSeenInTheOtherTail) {
  const auto check = check_last_digits(even);
  ASSERT_TRUE(check);
  EXPECT_NEAR(check->chi_squared, 1.2, 1e-12);
  EXPECT_NEAR(check->upper_p, 0.9988211, 5e-8);
  EXPECT_NEAR(check->lower_p, 0.0011789, 5e-8);
}

TEST(TerminalDigits, ADisplayStepThatIsNotKnownIsAFalseAccusation) {
  const auto unknown = check_last_digits(step_of_two, 1);
  ASSERT_TRUE(unknown);
  EXPECT_NEAR(unknown->chi_squared, 100.2, 1e-12);
  EXPECT_LT(unknown->upper_p, 1e-16);
  const auto known = check_last_digits(step_of_two, 2);
  ASSERT_TRUE(known);
  EXPECT_NEAR(known->chi_squared, 0.1, 1e-12);
  EXPECT_EQ(known->dof, 4);
  EXPECT_NEAR(known->upper_p, 0.9987909, 5e-8);
  EXPECT_EQ(known->impossible, 0U);
}

TEST(TerminalDigits, ThatADisplayCantShowAreCountedApart) {
  const auto check = check_last_digits(heaped, 2);
  ASSERT_TRUE(check);
  EXPECT_EQ(check->readings, 51U);
  EXPECT_EQ(check->impossible, 49U);
}

TEST(TerminalDigits, PossibleOnesFollowTheStep) {
  using Digits = std::vector<std::size_t>;
  EXPECT_EQ(possible_last_digits(1).size(), 10U);
  EXPECT_EQ(possible_last_digits(2), (Digits{0, 2, 4, 6, 8}));
  EXPECT_EQ(possible_last_digits(4), (Digits{0, 2, 4, 6, 8}));
  EXPECT_EQ(possible_last_digits(5), (Digits{0, 5}));
  EXPECT_EQ(possible_last_digits(25), (Digits{0, 5}));
  EXPECT_EQ(possible_last_digits(3).size(), 10U);
  EXPECT_EQ(possible_last_digits(10), (Digits{0}));
  EXPECT_EQ(possible_last_digits(0), (Digits{0}));
}

TEST(TerminalDigits, OfFewReadingsAreJudgedExactly) {
  // own input: counted over all ways to share twenty digits out, where χ² would say 0.0669; computed with Python 3.11
  // by tests/support/computed_statistics.py.
  const auto check = check_last_digits({6, 1, 2, 1, 1, 5, 1, 1, 1, 1});
  ASSERT_TRUE(check);
  EXPECT_TRUE(check->is_exact);
  EXPECT_NEAR(check->chi_squared, 16, 1e-12);
  EXPECT_NEAR(check->upper_p, 0.0718681913, 1e-10);
}

TEST(TerminalDigits, ExactProbabilitiesCanBeCountedByHand) {
  // Two readings: the same digit with 1/10, different ones with 9/10.
  const auto same = check_last_digits({2, 0, 0, 0, 0, 0, 0, 0, 0, 0});
  EXPECT_NEAR(same->upper_p, 0.1, 1e-14);
  EXPECT_NEAR(same->lower_p, 1, 1e-14);
  const auto different = check_last_digits({1, 0, 0, 1, 0, 0, 0, 0, 0, 0});
  EXPECT_NEAR(different->upper_p, 1, 1e-14);
  EXPECT_NEAR(different->lower_p, 0.9, 1e-14);
  // Four readings of 0 or 5: 4-0 either way 2/16, 3-1 either way 8/16, 2-2 6/16.
  const auto three = check_last_digits({3, 0, 0, 0, 0, 1, 0, 0, 0, 0}, 5);
  EXPECT_NEAR(three->upper_p, 10.0 / 16, 1e-14);
  EXPECT_NEAR(three->lower_p, 14.0 / 16, 1e-14);
  EXPECT_TRUE(std::isnan(three->zero_or_five_p));
}

TEST(TerminalDigits, ExactProbabilitiesAgreeWithRandomDigits) {
  // input: allowance. 49 readings, the most that are judged exactly; 20 000 draws, standard error 0.0035 at most.
  const DigitCounts observed{9, 3, 5, 4, 2, 8, 6, 4, 5, 3};
  const auto check = check_last_digits(observed);
  ASSERT_TRUE(check);
  ASSERT_TRUE(check->is_exact);
  test::RandomNumbers random(49);
  int as_uneven = 0;
  constexpr int draws = 20000;
  for (int i = 0; i < draws; ++i) {
    DigitCounts counts{};
    for (int k = 0; k < 49; ++k) ++counts[static_cast<std::size_t>(10 * random.uniform())];
    double chi_squared = 0;
    for (const std::size_t count : counts) chi_squared += std::pow(static_cast<double>(count) - 4.9, 2) / 4.9;
    as_uneven += chi_squared >= check->chi_squared - 1e-9 ? 1 : 0;
  }
  EXPECT_NEAR(check->upper_p, as_uneven / static_cast<double>(draws), 0.015);
  EXPECT_GT(check->upper_p + check->lower_p, 1);  // both count what was observed
}

TEST(TerminalDigits, OfNoReadingsOrOnePossibleDigitSayNothing) {
  EXPECT_FALSE(check_last_digits({}));
  EXPECT_FALSE(check_last_digits(heaped, 10));
  EXPECT_FALSE(check_last_digits({0, 5, 0, 5, 0, 0, 0, 0, 0, 0}, 2));
}

TEST(TerminalDigits, AreJudgedExactlyBelowFiftyReadings) {
  EXPECT_FALSE(check_last_digits({5, 5, 5, 5, 5, 5, 5, 5, 5, 5})->is_exact);
  EXPECT_TRUE(check_last_digits({5, 5, 5, 5, 5, 5, 5, 5, 5, 4})->is_exact);
}

}  // namespace
}  // namespace driftwarden::terminal_digits_test

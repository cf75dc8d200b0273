// SPDX-License-Identifier: MIT
#include "assessment/cut_size.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "record/sample.hpp"

namespace driftwarden::cut_size_test {
namespace {

constexpr double half_a_digit_2 = 0.5e-4;  // percentages below are given to 0.01 %

// own input: with n = 0.5 the cut size goes as one over the root of the flow, sqrt(2.0 / 1.9) - 1 = +2.598 %; computed
// with Python 3.11 by tests/support/computed_corrections.py.
TEST(CutShift, GrowsTheCutSizeWhereTheFlowFalls) {
  EXPECT_NEAR(cut_shift(1.9, 2.0, 0.5), 0.0260, half_a_digit_2);
  EXPECT_NEAR(cut_shift(1.9, 2.0, 0.5), std::sqrt(2.0 / 1.9) - 1, 1e-15);
  EXPECT_NEAR(cut_shift(2.1, 2.0, 0.5), -0.0241, half_a_digit_2);
}

TEST(CutShift, IsNoneAtTheNominalFlow) { EXPECT_EQ(cut_shift(2.0, 2.0, 0.63), 0); }

TEST(CutShift, IsNoneForASamplerWhoseCutDoesNotMove) { EXPECT_EQ(cut_shift(1.0, 2.0, 0), 0); }

TEST(CutShift, IsMissingWhereFlowNominalOrExponentIs) {
  EXPECT_TRUE(is_missing(cut_shift(missing, 2.0, 0.5)));
  EXPECT_TRUE(is_missing(cut_shift(2.0, missing, 0.5)));
  EXPECT_TRUE(is_missing(cut_shift(1.9, 2.0, missing)));
}

// pow(1, anything) is 1, even of what is missing.
TEST(CutShift, IsMissingWithoutAnExponentAlsoAtTheNominalFlow) {
  EXPECT_TRUE(is_missing(cut_shift(2.0, 2.0, missing)));
}

TEST(CutShift, IsMissingWithoutAFlowAlsoForASamplerWhoseCutDoesNotMove) {
  EXPECT_TRUE(is_missing(cut_shift(missing, 2.0, 0)));
  EXPECT_TRUE(is_missing(cut_shift(2.0, missing, 0)));
}

}  // namespace
}  // namespace driftwarden::cut_size_test

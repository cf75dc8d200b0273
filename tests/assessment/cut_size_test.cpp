// SPDX-License-Identifier: MIT
#include "assessment/cut_size.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "aerosol/slip.hpp"
#include "record/sample.hpp"

namespace driftwarden::cut_size_test {
namespace {

constexpr double half_a_digit_2 = 0.5e-4;  // percentages below are given to 0.01 %

// Of a sampler of which only the exponent is stated.
double shift(double flow_l_min, double nominal_l_min, double exponent) {
  CutLaw law;
  law.nominal_l_min = nominal_l_min;
  law.exponent = exponent;
  return cut_shift(law, flow_l_min);
}

CutLaw impactor() { return {4, 2, impactor_exponent, mean_free_path_of_air_um, {1.5, 2.5}}; }

// own input: with n = 0.5 the cut size goes as one over the root of the flow, sqrt(2.0 / 1.9) - 1 = +2.598 %; computed
// with Python 3.11 by tests/support/computed_corrections.py.
TEST(CutShift, GrowsTheCutSizeWhereTheFlowFalls) {
  EXPECT_NEAR(shift(1.9, 2.0, 0.5), 0.0260, half_a_digit_2);
  EXPECT_NEAR(shift(1.9, 2.0, 0.5), std::sqrt(2.0 / 1.9) - 1, 1e-15);
  EXPECT_NEAR(shift(2.1, 2.0, 0.5), -0.0241, half_a_digit_2);
}

TEST(CutShift, IsNoneAtTheNominalFlow) { EXPECT_EQ(shift(2.0, 2.0, 0.63), 0); }

TEST(CutShift, IsNoneForASamplerWhoseCutDoesNotMove) { EXPECT_EQ(shift(1.0, 2.0, 0), 0); }

TEST(CutShift, IsMissingWhereFlowNominalOrExponentIs) {
  EXPECT_TRUE(is_missing(shift(missing, 2.0, 0.5)));
  EXPECT_TRUE(is_missing(shift(2.0, missing, 0.5)));
  EXPECT_TRUE(is_missing(shift(1.9, 2.0, missing)));
}

// pow(1, anything) is 1, even of what is missing.
TEST(CutShift, IsMissingWithoutAnExponentAlsoAtTheNominalFlow) { EXPECT_TRUE(is_missing(shift(2.0, 2.0, missing))); }

TEST(CutShift, IsMissingWithoutAFlowAlsoForASamplerWhoseCutDoesNotMove) {
  EXPECT_TRUE(is_missing(shift(missing, 2.0, 0)));
  EXPECT_TRUE(is_missing(shift(2.0, missing, 0)));
}

TEST(CutShift, IsThatOfTheCutWhereOneIsStated) {
  EXPECT_DOUBLE_EQ(cut_shift(impactor(), 1.9), cut_at_flow(impactor(), 1.9) / 4 - 1);
  EXPECT_GT(cut_shift(impactor(), 1.9), shift(1.9, 2.0, 0.5)) << "slip makes it go faster";
  EXPECT_TRUE(is_missing(cut_shift(impactor(), 1.4)));
}

// A sampler that is meant to run at another flow than that of its description has the same cut at every flow.
TEST(WithNominal, LeavesTheCutAsItIs) {
  const CutLaw moved = with_nominal(impactor(), 1.8);
  EXPECT_EQ(moved.nominal_l_min, 1.8);
  EXPECT_EQ(moved.nominal_um, cut_at_flow(impactor(), 1.8));
  for (const double flow : {1.6, 1.8, 2.0, 2.4})
    EXPECT_NEAR(cut_at_flow(moved, flow), cut_at_flow(impactor(), flow), 1e-13);
  EXPECT_TRUE(is_missing(cut_at_flow(moved, 1.4)));
}

TEST(WithNominal, HasNoCutBeyondTheRangeOfTheLaw) {
  EXPECT_TRUE(is_missing(with_nominal(impactor(), 3).nominal_um));
  EXPECT_TRUE(is_missing(cut_shift(with_nominal(impactor(), 3), 2)));
  EXPECT_TRUE(is_missing(cut_shift(with_nominal(impactor(), missing), 2)));
}

}  // namespace
}  // namespace driftwarden::cut_size_test

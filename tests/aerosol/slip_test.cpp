// SPDX-License-Identifier: MIT
#include "aerosol/slip.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace driftwarden::slip_test {
namespace {

// own input: computed with Python 3.11 by tests/support/computed_aerosols.py.
TEST(Slip, IsTheFormulaOfDavies) {
  const double mean_free_path = mean_free_path_of_air_um;
  EXPECT_NEAR(slip_correction(0.5, mean_free_path), 1.3355481962552247, 1e-14);
  EXPECT_NEAR(slip_correction(1, mean_free_path), 1.1669430257734854, 1e-14);
  EXPECT_NEAR(slip_correction(2.5, mean_free_path), 1.0667718400215784, 1e-14);
  EXPECT_NEAR(slip_correction(4, mean_free_path), 1.0417324, 1e-14);
  EXPECT_NEAR(slip_correction(10, mean_free_path), 1.01669296, 1e-14);
}

TEST(Slip, IsNoneWithoutAMeanFreePath) {
  EXPECT_EQ(slip_correction(0.01, 0), 1);
  EXPECT_EQ(without_slip(4.1, 0), 4.1);
}

// derived: 1 + Kn (1.257 + 0.4) where the mean free path is far the longer.
TEST(Slip, GrowsWithTheKnudsenNumber) { EXPECT_NEAR(slip_correction(1e-6, 1) / 2e6, 1.657, 1e-5); }

// own input: d √C(d) computed with Python 3.11 by tests/support/computed_aerosols.py.
TEST(WithoutSlip, FindsTheDiameterBack) {
  const double mean_free_path = mean_free_path_of_air_um;
  EXPECT_NEAR(without_slip(4.0826117131071875, mean_free_path), 4, 1e-14);
  EXPECT_NEAR(without_slip(0.5778296021006593, mean_free_path), 0.5, 1e-15);
  EXPECT_NEAR(without_slip(0.06810871861799637, mean_free_path), 0.02, 1e-16);
}

TEST(WithoutSlip, FindsEveryDiameterBack) {
  const double mean_free_path = mean_free_path_of_air_um;
  for (double d = 0.001; d < 100; d *= 1.3)  // input: from far below the mean free path to far above
    EXPECT_NEAR(without_slip(d * std::sqrt(slip_correction(d, mean_free_path)), mean_free_path) / d, 1, 1e-13) << d;
}

// own input: a difference in logarithms, computed with Python 3.11 by tests/support/computed_aerosols.py.
TEST(SlipSlope, IsTheDerivativeOfTheLogarithm) {
  EXPECT_NEAR(slip_slope(0.5, mean_free_path_of_air_um), -0.2564814, 1e-7);
  EXPECT_NEAR(slip_slope(4, mean_free_path_of_air_um), -0.0400606, 1e-7);
}

TEST(SlipSlope, IsNoneWithoutAMeanFreePathAndNoFigureForWhatIsNoLength) {
  EXPECT_EQ(slip_slope(4, 0), 0);
  EXPECT_TRUE(std::isnan(slip_slope(0, 0.07)));
  EXPECT_TRUE(std::isnan(slip_slope(std::nan(""), 0.07)));
}

TEST(Slip, HasNoFigureForWhatIsNoLength) {
  EXPECT_TRUE(std::isnan(slip_correction(0, 0.07)));
  EXPECT_TRUE(std::isnan(slip_correction(1, -0.1)));
  EXPECT_TRUE(std::isnan(slip_correction(std::nan(""), 0.07)));
  EXPECT_TRUE(std::isnan(without_slip(0, 0.07)));
  EXPECT_TRUE(std::isnan(without_slip(1, -0.1)));
  EXPECT_TRUE(std::isnan(without_slip(1, std::nan(""))));
}

}  // namespace
}  // namespace driftwarden::slip_test

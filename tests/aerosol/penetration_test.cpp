// SPDX-License-Identifier: MIT
#include "aerosol/penetration.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "statistics/quadrature.hpp"

namespace driftwarden::penetration_test {
namespace {

constexpr PenetrationCurve curve{4, 1.25};

// own input: computed with SciPy 1.10 by tests/support/computed_aerosols.py; a spread above the cut it is Φ(−1).
TEST(Penetration, FallsThroughAHalfAtTheCut) {
  EXPECT_EQ(penetration(curve, 4), 0.5);
  EXPECT_NEAR(penetration(curve, 5), 0.15865525393145707, 1e-14);
  EXPECT_NEAR(penetration(curve, 3), 0.9013399276160062, 1e-14);
  EXPECT_EQ(penetration(curve, 0), 1);
}

TEST(Penetration, IsNoneAboveACutOfNothing) { EXPECT_EQ(penetration({0, 1.25}, 4), 0); }

TEST(Penetration, HasNoFigureForWhatIsNoCurveOrNoSize) {
  EXPECT_TRUE(std::isnan(penetration({0, 1.25}, 0)));
  EXPECT_TRUE(std::isnan(penetration({-4, 1.25}, 4)));
  EXPECT_TRUE(std::isnan(penetration({-4, 1.25}, -5)));
  EXPECT_TRUE(std::isnan(penetration({4, 1}, 5)));
  EXPECT_TRUE(std::isnan(penetration({4, 0.8}, 5)));
  EXPECT_TRUE(std::isnan(penetration({4, std::nan("")}, 4)));
  EXPECT_TRUE(std::isnan(penetration(curve, -1)));
  EXPECT_TRUE(std::isnan(penetration({}, 4)));
}

// own input: computed with SciPy 1.10 by tests/support/computed_aerosols.py.
TEST(SampledShare, IsTheClosedForm) {
  EXPECT_NEAR(sampled_share(curve, {3, 1.8}), 0.6763690820187778, 1e-14);
  EXPECT_NEAR(sampled_share(curve, {5, 2.0}), 0.37963478469914314, 1e-14);
  EXPECT_NEAR(sampled_share(curve, {10, 2.5}), 0.1656238554964859, 1e-14);
  EXPECT_NEAR(sampled_share(curve, {20, 3.0}), 0.07554976258831887, 1e-14);
}

// The closed form and the integral of the curve over the aerosol know nothing of each other.
TEST(SampledShare, IsTheIntegralOfTheCurveToTwelveDigits) {
  for (const double cut : {0.5, 2.5, 4.0, 10.0})
    for (const double spread : {1.25, 1.5, 2.0})
      for (const LognormalAerosol& of : {LognormalAerosol{3, 1.8}, {5, 2}, {10, 2.5}, {20, 3}}) {
        double sum = 0;
        for (const SizeShare& size : size_shares(of)) sum += size.share * penetration({cut, spread}, size.d_um);
        EXPECT_NEAR(sampled_share({cut, spread}, of), sum, 1e-12) << cut << ' ' << spread << ' ' << of.mmad_um;
      }
}

TEST(SampledShare, OfParticlesOfOneSizeIsThePenetration) {
  EXPECT_DOUBLE_EQ(sampled_share(curve, {5, 1}), penetration(curve, 5));
}

// derived: below a sharp cut lies Φ of its distance from the median, in spreads of the aerosol.
TEST(SampledShare, OfASharpCutIsTheMassBelowIt) {
  EXPECT_EQ(sampled_share({5, 1}, {5, 2}), 0.5);
  EXPECT_NEAR(sampled_share({10, 1}, {5, 2}), test::normal_chance_below(1), 1e-15);
}

TEST(SampledShare, IsNoneBelowNoSizeAndAllBelowEverySize) {
  EXPECT_EQ(sampled_share({0, 1.25}, {5, 2}), 0);
  EXPECT_EQ(sampled_share({std::numeric_limits<double>::infinity(), 1.25}, {5, 2}), 1);
}

TEST(SampledShare, HasNoFigureForWhatIsNoCurveOrNoAerosol) {
  EXPECT_TRUE(std::isnan(sampled_share({-4, 1.25}, {5, 2})));
  EXPECT_TRUE(std::isnan(sampled_share({4, 0.9}, {5, 2})));
  EXPECT_TRUE(std::isnan(sampled_share({std::nan(""), 1.25}, {5, 2})));
  EXPECT_TRUE(std::isnan(sampled_share(curve, {0, 2})));
  EXPECT_TRUE(std::isnan(sampled_share(curve, {5, 0.9})));
  EXPECT_TRUE(std::isnan(sampled_share({5, 1}, {5, 1})));
}

}  // namespace
}  // namespace driftwarden::penetration_test

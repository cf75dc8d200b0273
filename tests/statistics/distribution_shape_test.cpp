// SPDX-License-Identifier: MIT
#include "statistics/distribution_shape.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "statistics/random_numbers.hpp"

namespace driftwarden::distribution_shape_test {
namespace {

TEST(DistributionShape, DividesTheHalfWidthAsTheGumDoes) {
  // own input: half-width 1 by the forms of JCGM 100:2008, 4.3.7 and 4.3.9, and JCGM 101:2008, 6.4.6; computed with
  // SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(standard_uncertainty(DistributionShape::rectangular, 1), 0.57735, 5e-6);
  EXPECT_NEAR(standard_uncertainty(DistributionShape::triangular, 1), 0.40825, 5e-6);
  EXPECT_NEAR(standard_uncertainty(DistributionShape::arcsine, 1), 0.70711, 5e-6);
}

TEST(DistributionShape, AgreesWithRandomNumbersOfThatShape) {
  // input: allowance. 200 000 draws; the standard error of an s is below 0.0013 of it.
  test::RandomNumbers random(1);
  double rectangular = 0;
  double arcsine = 0;
  double triangular = 0;
  constexpr int draws = 200000;
  for (int i = 0; i < draws; ++i) {
    rectangular += std::pow(random.rectangular(1), 2);
    arcsine += std::pow(random.arcsine(1), 2);
    triangular += std::pow(random.rectangular(0.5) + random.rectangular(0.5), 2);
  }
  EXPECT_NEAR(std::sqrt(rectangular / draws), standard_uncertainty(DistributionShape::rectangular, 1), 0.004);
  EXPECT_NEAR(std::sqrt(arcsine / draws), standard_uncertainty(DistributionShape::arcsine, 1), 0.004);
  EXPECT_NEAR(std::sqrt(triangular / draws), standard_uncertainty(DistributionShape::triangular, 1), 0.004);
}

}  // namespace
}  // namespace driftwarden::distribution_shape_test

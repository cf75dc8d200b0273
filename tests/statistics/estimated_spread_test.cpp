// SPDX-License-Identifier: MIT
#include "statistics/estimated_spread.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "statistics/student_t.hpp"

namespace driftwarden::estimated_spread_test {
namespace {

// derived: E(χ²/ν) = 1, E(χ²/ν)² = 1 + 2/ν, the moments of χ².
TEST(EstimatedSpread, HasTheMomentsOfChiSquared) {
  for (const double dof : {2.0, 4.0, 10.0, 100.0, 5000.0}) {
    const auto power = [dof](double n) {
      return mean_over_estimated_spread(dof, [n](double sigma) { return std::pow(sigma, -n); });
    };
    EXPECT_NEAR(power(0), 1, 1e-12);
    EXPECT_NEAR(power(2), 1, 1e-6) << dof;
    EXPECT_NEAR(power(4), 1 + 2 / dof, 1e-6) << dof;
  }
}

// derived: the normal distribution, its σ estimated, is Student's t.
TEST(EstimatedSpread, MakesStudentsTOfTheNormalDistribution) {
  for (const double dof : {3.0, 12.0}) {  // input: degrees of freedom and how far out
    const double p =
        mean_over_estimated_spread(dof, [](double sigma) { return std::erfc(2.5 / sigma / std::sqrt(2)); });
    EXPECT_NEAR(p, student_t_two_sided_p(2.5, dof), 1e-6);
  }
}

TEST(EstimatedSpread, NeedsDegreesOfFreedom) {
  EXPECT_TRUE(std::isnan(mean_over_estimated_spread(0, [](double) { return 1.0; })));
}

TEST(EstimatedSpread, TakesOneDegreeOfFreedom) {
  EXPECT_NEAR(mean_over_estimated_spread(1, [](double) { return 3.0; }), 3, 1e-12);
}

}  // namespace
}  // namespace driftwarden::estimated_spread_test

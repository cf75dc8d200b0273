// SPDX-License-Identifier: MIT
#include "statistics/special_functions.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "support/hexadecimal_values.hpp"

namespace driftwarden::special_functions_test {
namespace {

double value_of(const std::string& function, double a, double b, double c) {
  if (function == "erfc") return special::erfc(a);
  if (function == "gamma") return special::gamma(a);
  if (function == "gamma_ratio") return special::gamma_ratio(a, b);
  if (function == "gamma_below") return special::gamma_below(a, b);
  if (function == "gamma_above") return special::gamma_above(a, b);
  if (function == "beta_below") return special::beta_below(a, b, c);
  return special::student_t_cdf(a, b);
}

// own input: computed with mpmath 1.2.1 by tests/support/elementary_values.py.
TEST(SpecialFunctions, AreGoodToAFewUnitsOfTheLastOfSixteenDigits) {
  const auto values = test::hexadecimal_values(test::value_file("statistics/data/special_functions.txt"));
  ASSERT_EQ(values.size(), 7U * 25);
  for (const auto& [function, x, value] : values) {
    const double found = value_of(function, x[0], x[1], x[2]);
    EXPECT_NEAR(found / value, 1, 3e-14) << function << "(" << x[0] << ", " << x[1] << ", " << x[2] << ")";
  }
}

// derived: an inverse leads back to where it began.
TEST(SpecialFunctions, InversesLeadBack) {
  for (const double share : {1e-6, 0.025, 0.3, 0.5, 0.9, 0.999}) {
    EXPECT_NEAR(special::erfc(special::erfc_inverse(share)) / share, 1, 1e-14);
    for (const double dof : {1.0, 2.0, 3.0, 4.0, 6.0, 7.5, 60.0}) {
      EXPECT_NEAR(special::student_t_cdf(dof, special::student_t_quantile(dof, share)) / share, 1, 1e-11) << dof;
    }
  }
}

TEST(SpecialFunctions, WhatIsOutsideOfADomainIsNoNumber) {
  EXPECT_TRUE(std::isnan(special::erfc_inverse(3)));
  EXPECT_TRUE(std::isnan(special::gamma(-1)));
  EXPECT_TRUE(std::isnan(special::gamma_below(-1, 1)));
  EXPECT_TRUE(std::isnan(special::beta_below(-1, 1, 0.5)));
  EXPECT_TRUE(std::isnan(special::student_t_quantile(-1, 0.5)));
  EXPECT_EQ(special::gamma(1000), std::numeric_limits<double>::infinity());
}

}  // namespace
}  // namespace driftwarden::special_functions_test

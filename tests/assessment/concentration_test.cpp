// SPDX-License-Identifier: MIT
#include "assessment/concentration.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "quantity/number.hpp"

namespace driftwarden::concentration_test {
namespace {

// derived: 15.842 - 15.310 - (15.004 - 14.998) = 0.526 mg; 1.95 L/min x 455 min = 887.25 L; 1000 x 0.526 / 887.25. A
// closed form; no document that was read prints an example.
TEST(Concentration, IsTheNetMassInTheVolume) {
  const double net = net_amount(15.842 - 15.310, 15.004 - 14.998);
  EXPECT_NEAR(net, 0.526, 1e-12);
  EXPECT_NEAR(concentration(net, 1.95 * 455, false), 0.5928, 0.00005);
  EXPECT_NEAR(concentration(net, 1.95 * 455, false), 1000 * 0.526 / 887.25, 1e-12);
}

// printed: NMAM 0600, Issue 3, page 1: the working range is 0.5 to 10 mg/m3 for a 200-L air sample, and 0.1 to 2 mg a
// sample; 20 L are the least at 5 mg/m3, and 400 L the most.
TEST(Concentration, ReachesFromTheEndsOfTheMassToThoseOfTheConcentration) {
  EXPECT_DOUBLE_EQ(concentration(0.1, 200, false), 0.5);
  EXPECT_DOUBLE_EQ(concentration(2, 200, false), 10);
  EXPECT_DOUBLE_EQ(concentration(0.1, 20, false), 5);
  EXPECT_DOUBLE_EQ(concentration(2, 400, false), 5);
}

// derived: 385 mm² of a filter at 100 fibres/mm² are 38500 fibres; in 400 L, which are 400 000 cm³, 0.09625 a cm³.
TEST(Concentration, OfFibresIsTheirNumberInACubicCentimetre) {
  EXPECT_DOUBLE_EQ(concentration(38500, 400, true), 0.09625);
}

// input: a blank that carries more than its sample.
TEST(Concentration, IsNegativeWhereTheBlanksCarryMore) {
  EXPECT_LT(concentration(net_amount(0.004, 0.010), 500, false), 0);
}

// own input: computed with Python 3.11 by tests/support/computed_records.py.
TEST(Concentration, TakesOffABlankThatItDoesNotKnow) {
  EXPECT_NEAR(uncertainty_of_blank(0.002, 3), 0.0023094, 5e-8);
  EXPECT_NEAR(uncertainty_of_unseen(0.03, 2, 4), 0.0086603, 5e-8);
  EXPECT_EQ(uncertainty_of_unseen(missing, 0, 4), 0);
  EXPECT_TRUE(std::isnan(uncertainty_of_blank(missing, 1)));
}

}  // namespace
}  // namespace driftwarden::concentration_test

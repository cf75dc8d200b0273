// SPDX-License-Identifier: MIT
#include "doubt/pair_scatter.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace driftwarden::pair_scatter_test {
namespace {

// input: readings, pumps and steps.

Replicates set_of(Row pump, std::vector<double> readings) {
  Replicates set;
  set.pump = pump;
  set.calibrator = 9;
  set.rows.resize(readings.size());
  set.indicated_l_min = std::move(readings);
  return set;
}

const std::vector<Replicates> three_sets{set_of(1, {1.99, 2.00, 2.01}), set_of(1, {3.96, 4.00, 4.04}),
                                         set_of(2, {1.90, 2.00, 2.10})};

TEST(PairScatter, OfASetIsThatOfTheOthersOfItsPump) {
  const PairScatter known(three_sets);
  EXPECT_NEAR(known.of_pair(0).s, 0.01, 1e-12);  // of the second, 0.04 of 4
  EXPECT_EQ(known.of_pair(0).dof, 2);
  EXPECT_NEAR(known.of_pair(1).s, 0.005, 1e-12);
  EXPECT_FALSE(known.of_pair(2).dof > 0);  // it is the pump's only one
  EXPECT_EQ(known.of_calibrator(2).dof, 4);
}

TEST(PairScatter, IsNotLearntFromWhatIsLeftOut) {
  PairScatter known(three_sets);
  known.leave_out({false, true, false});
  EXPECT_FALSE(known.of_pair(0).dof > 0);
  EXPECT_NEAR(known.of_pair(1).s, 0.005, 1e-12);
}

// derived: 0.01 of 2 L/min are 20 steps of 0.001 and 2 of 0.01; of a variance 1/12 of a step is rounding.
TEST(PairScatter, InStepsIsOfTheCoarserOfDisplayAndPage) {
  const PairScatter known(three_sets);
  EXPECT_NEAR(known.in_steps(0, 0.001).s, std::sqrt(4 - 1.0 / 12), 1e-9);  // nobody wrote down less than 0.01
  EXPECT_NEAR(known.in_steps(0, 0.02).s, std::sqrt(1 - 1.0 / 12), 1e-9);
  EXPECT_FALSE(known.in_steps(0, 0.05).dof > 0);  // 0.4 steps: hidden
  EXPECT_FALSE(known.in_steps(0, 0).dof > 0);
}

}  // namespace
}  // namespace driftwarden::pair_scatter_test

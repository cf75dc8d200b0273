// SPDX-License-Identifier: MIT
#include "statistics/fisher_f.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "statistics/student_t.hpp"

namespace driftwarden::fisher_f_test {
namespace {

// input: probabilities, where nothing else is said.

TEST(FisherF, HasTheCriticalValuesOfThePrintedTable) {
  // printed: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.3, upper 5 %, three decimals.
  EXPECT_NEAR(fisher_f_upper_quantile(0.05, 1, 10), 4.965, 5e-4);
  EXPECT_NEAR(fisher_f_upper_quantile(0.05, 4, 20), 2.866, 5e-4);
  EXPECT_NEAR(fisher_f_upper_quantile(0.05, 2, 5), 5.786, 5e-4);
}

TEST(FisherF, WithOneDegreeOfFreedomAboveIsASquaredT) {
  for (const double tail : {0.003, 0.05, 0.4}) {
    const double t = student_t_quantile(1 - tail / 2, 7);
    EXPECT_NEAR(fisher_f_upper_quantile(tail, 1, 7) / (t * t), 1, 1e-12) << tail;
  }
}

TEST(FisherF, RefusesTheImpossible) {
  EXPECT_TRUE(std::isnan(fisher_f_upper_quantile(2, 1, 2)));
  EXPECT_TRUE(std::isnan(fisher_f_upper_quantile(0.05, 0, 2)));
  EXPECT_EQ(fisher_f_upper_quantile(0, 1, 2), std::numeric_limits<double>::infinity());
}

}  // namespace
}  // namespace driftwarden::fisher_f_test

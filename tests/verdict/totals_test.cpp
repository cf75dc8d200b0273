// SPDX-License-Identifier: MIT
#include "verdict/totals.hpp"

#include <gtest/gtest.h>

namespace driftwarden::totals_test {
namespace {

TEST(Totals, CountVerdictsAndAddUp) {
  Totals totals;
  for (const Verdict verdict : {Verdict::valid, Verdict::valid, Verdict::qualified, Verdict::undecided, Verdict::void_})
    totals.count(verdict);
  Totals sum;
  sum += totals;
  sum += totals;
  EXPECT_EQ(sum.samples, 10U);
  EXPECT_EQ(sum.valid, 4U);
  EXPECT_EQ(sum.qualified, 2U);
  EXPECT_EQ(sum.undecided, 2U);
  EXPECT_EQ(sum.void_, 2U);
}

}  // namespace
}  // namespace driftwarden::totals_test

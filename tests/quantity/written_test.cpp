// SPDX-License-Identifier: MIT
#include "quantity/written.hpp"

#include <gtest/gtest.h>

namespace driftwarden::written_test {
namespace {

const Written a(2, "2.0");
const Written b(3, "3.0");
const Written c(4, "4.0");

// input: three numbers, as they are written.
TEST(Written, IsTheFigureAndTheWayToIt) {
  EXPECT_EQ(((a + b) * c).value(), 20);
  EXPECT_EQ(((a + b) * c).text(), "(2.0 + 3.0) x 4.0");
  EXPECT_EQ((a - b).value(), -1);
  EXPECT_EQ((c / a).value(), 2);
  EXPECT_EQ(sqrt(c).value(), 2);
}

TEST(Written, HasTheBracketsItNeeds) {
  EXPECT_EQ(((a / b) * (c / a)).text(), "(2.0 / 3.0) x (4.0 / 2.0)");
  EXPECT_EQ((a * ((b / c) * (c / b))).text(), "2.0 x (3.0 / 4.0) x (4.0 / 3.0)");
  EXPECT_EQ(((a - b) / (a - b * c)).text(), "(2.0 - 3.0) / (2.0 - 3.0 x 4.0)");
  EXPECT_EQ((a - (b - c)).text(), "2.0 - (3.0 - 4.0)");
  EXPECT_EQ((a + (b - c)).text(), "2.0 + 3.0 - 4.0");
  EXPECT_EQ((a / (b / c)).text(), "2.0 / (3.0 / 4.0)");
  EXPECT_EQ((a / sqrt(b / c)).text(), "2.0 / √(3.0 / 4.0)");
}

}  // namespace
}  // namespace driftwarden::written_test

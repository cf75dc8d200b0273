// SPDX-License-Identifier: MIT
#include "statistics/multiple_tests.hpp"

#include <gtest/gtest.h>

#include <array>
#include <vector>

namespace driftwarden::multiple_tests_test {
namespace {

// derived: Holm, five values times 5, 4, 3, 2, 1, none below the one before.

// Expected values computed with R p.adjust.

void expect_all_near(const std::vector<double>& found, const std::vector<double>& expected) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) EXPECT_NEAR(found[i], expected[i], 1e-12) << i;
}

TEST(Holm, OfFiveTests) {
  expect_all_near(holm(std::array<double, 5>{0.001, 0.012, 0.020, 0.20, 0.5}), {0.005, 0.048, 0.06, 0.4, 0.5});
}

TEST(Holm, KeepsTheOrderGivenAndNeverFalls) {
  expect_all_near(holm(std::array<double, 5>{0.5, 0.020, 0.001, 0.20, 0.012}), {0.5, 0.06, 0.005, 0.4, 0.048});
  expect_all_near(holm(std::array<double, 3>{0.01, 0.011, 0.012}), {0.03, 0.03, 0.03});
  expect_all_near(holm(std::array<double, 2>{0.9, 0.8}), {1, 1});
}

TEST(MultipleTests, OfOneOrNoneChangeNothing) {
  expect_all_near(holm(std::array<double, 1>{0.03}), {0.03});
  EXPECT_TRUE(holm({}).empty());
}

}  // namespace
}  // namespace driftwarden::multiple_tests_test

// SPDX-License-Identifier: MIT
#include "diagnostic/joined.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace driftwarden::joined_test {
namespace {

TEST(Joined, PutsASeparatorBetweenTwoOnly) {
  EXPECT_EQ(joined(std::vector<std::string>{}, ", "), "");
  EXPECT_EQ(joined(std::vector<std::string>{"a"}, ", "), "a");
  EXPECT_EQ(joined(std::vector<std::string>{"a", "b", "c"}, "; "), "a; b; c");
}

TEST(Joined, CountsAnEmptyText) { EXPECT_EQ(joined(std::vector<std::string>{"", "", "a"}, ","), ",,a"); }

TEST(Joined, AsksEachThingForItsText) {
  EXPECT_EQ(joined(std::vector<int>{1, 2}, " and ", [](int n) { return std::to_string(n); }), "1 and 2");
}

}  // namespace
}  // namespace driftwarden::joined_test

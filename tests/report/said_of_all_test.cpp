// SPDX-License-Identifier: MIT
#include "report/said_of_all.hpp"

#include <gtest/gtest.h>

namespace driftwarden::said_of_all_test {
namespace {

TEST(SaidOfAll, IsWhatEachHasInTheOrderOfTheFirst) {
  const Sayings one{"b", "a", "c"};
  const Sayings other{"a", "d", "b"};
  EXPECT_EQ(said_of_all({&one, &other}), (Sayings{"b", "a"}));
  EXPECT_EQ(said_of_all({&one}), Sayings{}) << "of one alone it stands beside it";
  EXPECT_EQ(said_of_all({}), Sayings{});
  EXPECT_EQ(without({"b", "a"}, one), Sayings{"c"});
}

}  // namespace
}  // namespace driftwarden::said_of_all_test

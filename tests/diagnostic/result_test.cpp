// SPDX-License-Identifier: MIT
#include "diagnostic/result.hpp"

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <utility>

namespace driftwarden::result_test {
namespace {

Result<int> half_of(int number) {
  if (number % 2 != 0) return error("test/odd", {}, "odd");
  return number / 2;
}

TEST(Result, HoldsAValue) {
  const Result<int> half = half_of(8);
  ASSERT_TRUE(half.has_value());
  EXPECT_EQ(*half, 4);
  EXPECT_TRUE(half.faults().empty());
}

TEST(Result, HoldsWhatIsWrongInstead) {
  const Result<int> half = half_of(7);
  EXPECT_FALSE(half);
  ASSERT_EQ(half.faults().size(), 1U);
  EXPECT_EQ(half.faults()[0].id, "test/odd");
}

TEST(Result, KeepsEveryFault) {
  const Result<int> result = Diagnostics{error("test/a", {}, "a"), error("test/b", {}, "b")};
  ASSERT_EQ(result.faults().size(), 2U);
  EXPECT_EQ(result.faults()[1].id, "test/b");
}

TEST(Result, GivesItsValueAway) {
  Result<std::unique_ptr<std::string>> result = std::make_unique<std::string>("kept");
  const std::unique_ptr<std::string> value = *std::move(result);
  EXPECT_EQ(*value, "kept");
}

TEST(Result, LetsItsValueBeLookedAtAndChanged) {
  Result<std::string> result = std::string("drift");
  result->push_back('s');
  *result += '.';
  EXPECT_EQ(result->size(), 7U);
  EXPECT_EQ(*result, "drifts.");
}

}  // namespace
}  // namespace driftwarden::result_test

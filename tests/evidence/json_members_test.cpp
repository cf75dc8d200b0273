// SPDX-License-Identifier: MIT
#include "evidence/json_members.hpp"

#include <gtest/gtest.h>

namespace driftwarden::json_members_test {
namespace {

TEST(JsonMembers, AreFoundByTheirPath) {
  const auto members = json_members(R"({"a":[1,{"b":"x"},[2.50]],"c":null,"d":true,"e":{},"f":-3})");
  ASSERT_TRUE(members);
  EXPECT_EQ(*members, (JsonMembers{{"a[0]", {"1", false}},
                                   {"a[1].b", {"x", true}},
                                   {"a[2][0]", {"2.50", false}},
                                   {"c", {"null", false}},
                                   {"d", {"true", false}},
                                   {"f", {"-3", false}}}));
}

TEST(JsonMembers, AreNoneOfATextThatIsNoJson) {
  EXPECT_FALSE(json_members(""));
  EXPECT_FALSE(json_members("{\"a\":1"));
  EXPECT_FALSE(json_members("{}x"));
  EXPECT_FALSE(json_members(std::string(1'000'000, '[')));
}

TEST(JsonMembers, AreFoundAHundredDeepAndNoDeeper) {
  const auto nested = [](std::size_t depth) { return std::string(depth, '[') + "1" + std::string(depth, ']'); };
  EXPECT_TRUE(json_members(nested(99)));
  EXPECT_FALSE(json_members(nested(100)));
}

TEST(JsonMembers, CountTheElementsOfAnArrayOnly) {
  const auto members = json_members(R"({"a":{"b":1,"c":2},"d":[{"e":3},{"e":4}]})");
  ASSERT_TRUE(members);
  EXPECT_EQ(members->count("a.c"), 1U);
  EXPECT_EQ(members->count("d[1].e"), 1U);
}

}  // namespace
}  // namespace driftwarden::json_members_test

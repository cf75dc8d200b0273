// SPDX-License-Identifier: MIT
#include "evidence/version.hpp"

#include <gtest/gtest.h>

namespace driftwarden::version_test {
namespace {

TEST(Version, IsThreeWholeNumbers) {
  EXPECT_EQ(version_from("0.2.0"), (Version{0, 2, 0}));
  EXPECT_EQ(version_from("12.0.345678"), (Version{12, 0, 345678}));
  EXPECT_LT(*version_from("0.9.0"), *version_from("0.10.0"));
}

TEST(Version, IsNothingElse) {
  for (const char* text : {"", "0", "0.1", "0.1.", ".1.0", "0.1.0.", "0.1.0.0", "0.1.0-rc", "0.1.0\n", " 0.1.0",
                           "-1.0.0", "0.1.1234567", "0.1.x", "0.:.0", "0.1.0\x1b[2J", "0.1.0\nsignature   good"}) {
    EXPECT_FALSE(version_from(text)) << text;
  }
}

}  // namespace
}  // namespace driftwarden::version_test

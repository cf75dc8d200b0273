// SPDX-License-Identifier: MIT
#include "driftwarden/diagnostic/characters.hpp"

#include <gtest/gtest.h>

namespace driftwarden {
namespace {

TEST(Characters, HaveOneToFourBytes) {
  EXPECT_EQ(character_length("a1"), 1U);
  EXPECT_EQ(character_length("é!"), 2U);
  EXPECT_EQ(character_length("€!"), 3U);
  EXPECT_EQ(character_length("\xF0\x9F\x94\xA7!"), 4U);
}

TEST(Characters, AreNotBytesThatNoWriterOfUtf8MayWrite) {  // RFC 3629, section 3
  EXPECT_EQ(character_length("\x80"), 0U);
  EXPECT_EQ(character_length("\xC0\x80"), 0U);          // overlong
  EXPECT_EQ(character_length("\xE0\x9F\x80"), 0U);      // overlong
  EXPECT_EQ(character_length("\xED\xA0\x80"), 0U);      // surrogate
  EXPECT_EQ(character_length("\xF4\x90\x80\x80"), 0U);  // beyond U+10FFFF
  EXPECT_EQ(character_length("\xE2\x82"), 0U);          // cut off
}

TEST(Characters, ThatActInsteadOfShowingAreControls) {
  EXPECT_TRUE(is_control("\x1b"));
  EXPECT_TRUE(is_control("\x7f"));
  EXPECT_TRUE(is_control("\xC2\x85"));      // U+0085
  EXPECT_TRUE(is_control("\xE2\x80\xA8"));  // U+2028, line separator
  EXPECT_TRUE(is_control("\xE2\x80\xAE"));  // U+202E, right-to-left override
  EXPECT_TRUE(is_control("\xE2\x81\xA9"));  // U+2069, end of an isolate
}

TEST(Characters, ThatShowThemselvesAreNone) {
  EXPECT_FALSE(is_control("a"));
  EXPECT_FALSE(is_control("é"));
  EXPECT_FALSE(is_control("ש"));
  EXPECT_FALSE(is_control("—"));
}

}  // namespace
}  // namespace driftwarden

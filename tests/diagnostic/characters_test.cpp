// SPDX-License-Identifier: MIT
#include "diagnostic/characters.hpp"

#include <gtest/gtest.h>

#include <string>

namespace driftwarden::characters_test {
namespace {

TEST(CharacterLength, IsThatOfTheUtf8CharacterInFront) {
  EXPECT_EQ(character_length("a°"), 1U);
  EXPECT_EQ(character_length("°a"), 2U);
  EXPECT_EQ(character_length("漢a"), 3U);
  EXPECT_EQ(character_length("\U0001F4A7"), 4U);
}

TEST(CharacterLength, IsNoughtWhereThereIsNone) {
  for (const char* bytes :
       {"", "\xB0", "\xC0\xAF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82", "\xF0\x9F"})
    EXPECT_EQ(character_length(bytes), 0U) << bytes;
}

TEST(IsUtf8, IsSoForEveryCharacterOfATextOrNotAtAll) {
  for (const char* text : {"", "PUMP-04", "25 °C — 漢字", "a\x7f"}) EXPECT_TRUE(is_utf8(text)) << text;
  for (const char* text : {"25 \xB0", "Jos\xE9", "\xE9t\xE9", "25 °C \xE2\x82"}) EXPECT_FALSE(is_utf8(text)) << text;
}

TEST(IsControl, HoldsForWhatDoesNotShowItself) {
  for (const char* character : {"\n", "\x1b", "\x7f", "\u0085", "\u202E", "\u2066"})
    EXPECT_TRUE(is_control(character)) << character;
  for (const char* character : {" ", "a", "\u00A0", "—", "漢"}) EXPECT_FALSE(is_control(character)) << character;
}

TEST(ShowsItself, IsSoForTextAndNotForControlsOrBytes) {
  EXPECT_TRUE(shows_itself(""));
  EXPECT_TRUE(shows_itself("25 °C — 漢字"));
  for (const char* hidden : {"a\nb", "a\x7f", "a\u202Eb", "25 \xB0", "\xE2\x82"}) EXPECT_FALSE(shows_itself(hidden));
}

TEST(IsAllAscii, LooksAtEveryByte) {
  EXPECT_TRUE(is_all_ascii(""));
  for (std::size_t size = 1; size < 20; ++size) {
    EXPECT_TRUE(is_all_ascii(std::string(size, '\x7f'))) << size;
    for (std::size_t i = 0; i < size; ++i) {
      std::string text(size, 'a');
      text[i] = '\x80';
      EXPECT_FALSE(is_all_ascii(text)) << size << ' ' << i;
    }
  }
}

}  // namespace
}  // namespace driftwarden::characters_test

// SPDX-License-Identifier: MIT
#include "book/number_look.hpp"

#include <gtest/gtest.h>

#include <string>

namespace driftwarden::number_look_test {
namespace {

using Kind = NumberLook::Kind;

TEST(NumberLook, IsADateOrTimeByTheLettersOfItsCode) {
  for (const char* code : {"dd/mm/yyyy", "d.m.yy", "[$-409]mmm\\-yy", "mm", "[Red]yyyy\"h\"", "yyyy;@"})
    EXPECT_EQ(look_of(code).kind, Kind::date) << code;
  for (const char* code : {"dd.mm.yy hh:mm", "m/d/yy h:mm AM/PM", "yyyy-mm-dd\"T\"hh:mm:ss"})
    EXPECT_EQ(look_of(code).kind, Kind::date_time) << code;
  for (const char* code : {"hh:mm", "h:mm:ss AM/PM", "mm:ss.0"}) EXPECT_EQ(look_of(code).kind, Kind::time) << code;
  for (const char* code : {"[h]:mm", "[hh]:mm:ss", "[mm]:ss"}) EXPECT_EQ(look_of(code).kind, Kind::duration) << code;
}

TEST(NumberLook, IsPlainWhereLettersAreOnlyShown) {
  for (const char* code : {"General", "0.00", "#,##0 \"days\"", "0.00\\d", "[Yellow]0.0", "0.00E+00", "_-* 0", "@"})
    EXPECT_EQ(look_of(code).kind, Kind::plain) << code;
  EXPECT_EQ(look_of("0.0%").kind, Kind::percent);
}

TEST(NumberLook, TellsNoughtsThatAreShownBefore) {
  EXPECT_EQ(look_of("000").digits, 3);
  EXPECT_EQ(look_of("0").digits, 0);
  EXPECT_EQ(look_of("0.00").digits, 0);
}

// ECMA-376-1, 18.8.30: the numbers of the formats that need no code (from memory).
TEST(NumberLook, KnowsTheFormatsWithoutCode) {
  EXPECT_EQ(built_in_look(0).kind, Kind::plain);
  EXPECT_EQ(built_in_look(10).kind, Kind::percent);
  EXPECT_EQ(built_in_look(14).kind, Kind::date);
  EXPECT_EQ(built_in_look(20).kind, Kind::time);
  EXPECT_EQ(built_in_look(22).kind, Kind::date_time);
  EXPECT_EQ(built_in_look(46).kind, Kind::duration);
  EXPECT_EQ(built_in_look(49).kind, Kind::plain);
}

}  // namespace
}  // namespace driftwarden::number_look_test

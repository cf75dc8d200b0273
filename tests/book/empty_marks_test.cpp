// SPDX-License-Identifier: MIT
#include "book/empty_marks.hpp"

#include <gtest/gtest.h>

namespace driftwarden::empty_marks_test {
namespace {

TEST(EmptyMarks, AreTheUsualOnesInAnyCapitals) {
  const EmptyMarks marks;
  for (const char* text : {"n/a", "N/A", "None", "-", "—", "–", "--"}) EXPECT_TRUE(marks.hold(text)) << text;
  for (const char* text : {"", "0", "-1", "nothing", "n/a?"}) EXPECT_FALSE(marks.hold(text)) << text;
}

TEST(EmptyMarks, TellByTheFirstByteWhatHasToBeLookedAt) {
  const std::vector<std::string> one{"x"};
  const EmptyMarks marks(one);
  for (const char c : {'x', 'X', ' ', '\t', '\xC2', '\xE2'}) EXPECT_TRUE(marks.may_begin(c)) << c;
  for (const char c : {'n', '-', '2'}) EXPECT_FALSE(marks.may_begin(c)) << c;
  EXPECT_FALSE(marks.hold("n/a")) << "the book has marks of its own";
}

TEST(PlainBlanks, StandForThoseOfUnicode) {
  EXPECT_EQ(with_plain_blanks("P\u00A07\u202F8\u2009°"), "P 7 8 °");
  EXPECT_TRUE(has_wide_blank("P\u00A07"));
  EXPECT_FALSE(has_wide_blank("Ä – °C"));
}

}  // namespace
}  // namespace driftwarden::empty_marks_test

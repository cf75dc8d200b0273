// SPDX-License-Identifier: MIT
#include "evidence/manifest.hpp"

#include <gtest/gtest.h>

namespace driftwarden::manifest_test {
namespace {

const std::string digest_a(128, 'a');
const std::string digest_7(128, '7');
const Manifest two{{"data/a.txt", digest_a}, {"data/b c.txt", digest_7}};

std::string first_fault(const std::string& text) {
  const Result<Manifest> manifest = parse_manifest(text, "manifest-sha512.txt");
  return manifest ? "" : to_text(manifest.faults().front());
}

TEST(Manifest, IsALineAFileInOrderOfTheNames) {
  EXPECT_EQ(manifest_text(two), digest_a + "  data/a.txt\n" + digest_7 + "  data/b c.txt\n");
  EXPECT_EQ(manifest_text({}), "");
}

TEST(Manifest, ReadsBackWhatItWrites) {
  const Result<Manifest> manifest = parse_manifest(manifest_text(two), "m");
  ASSERT_TRUE(manifest);
  EXPECT_EQ(*manifest, two);
  ASSERT_TRUE(parse_manifest("", "m"));
}

TEST(Manifest, TellsALineThatIsNone) {
  EXPECT_EQ(
      first_fault("abc  data/a\n"),
      "manifest-sha512.txt:1: error: 'abc  data/a' … is no line of a manifest; a line is the SHA-512 of a file in "
      "128 small hexadecimal digits, two blanks and its name; the lines are in order of the names "
      "[evidence/manifest]");
}

TEST(Manifest, TakesNoOtherWayOfWritingTheSame) {
  const std::string good = manifest_text(two);
  const auto with = [&](std::size_t at, char c) {
    std::string text = good;
    text[at] = c;
    return first_fault(text);
  };
  EXPECT_NE(with(0, 'A'), "") << "a capital digit";
  EXPECT_NE(with(128, '\t'), "") << "a tab";
  EXPECT_NE(with(129, '*'), "") << "the mark of a binary file";
  EXPECT_NE(first_fault(digest_7 + "  b\n" + digest_a + "  a\n"), "") << "another order";
  EXPECT_NE(first_fault(digest_7 + "  b\n" + digest_7 + "  b\n"), "") << "twice";
  EXPECT_NE(first_fault(good + "\n"), "") << "an empty line";
  EXPECT_NE(first_fault("\xEF\xBB\xBF" + good), "") << "a byte-order mark";
  EXPECT_NE(first_fault(digest_a + "  a\r\n"), "") << "a carriage return";
}

TEST(Manifest, TellsAFileThatIsCutOff) {
  EXPECT_EQ(first_fault(digest_a + "  data/a.tx").substr(0, 76),
            "manifest-sha512.txt:1: error: the last line has no line end: the file is cut");
}

TEST(Manifest, ReadsNothingUnderANameThatLeadsAway) {
  EXPECT_EQ(
      first_fault(digest_a + "  data/../../x\n"),
      "manifest-sha512.txt:1: error: the name 'data/../../x' leads out of its folder; nothing is read under such a "
      "name; a package of driftwarden has none [evidence/name]");
  EXPECT_NE(first_fault(digest_a + "  data/a%0Ab\n").find("holds '%'"), std::string::npos);
}

TEST(Manifest, TellsTwentyFaultsAndStops) {
  std::string text;
  for (int i = 0; i < 1000; ++i) text += "x\n";
  const Result<Manifest> manifest = parse_manifest(text, "m");
  ASSERT_FALSE(manifest);
  EXPECT_EQ(manifest.faults().size(), 20U);
}

TEST(Manifest, TakesEverySmallHexadecimalDigitAndNoCharacterBesideThem) {
  for (const char digit : std::string("09af")) {
    EXPECT_EQ(first_fault(std::string(128, digit) + "  a\n"), "") << digit;
  }
  for (const char other : std::string("/:`g")) {
    EXPECT_NE(first_fault(std::string(128, other) + "  a\n"), "") << other;
  }
  EXPECT_NE(first_fault(digest_7 + " \n"), "") << "one blank, and no name";
  EXPECT_NE(first_fault(digest_7 + "\n"), "");
  EXPECT_NE(first_fault(digest_7 + "  \n").find("[evidence/name]"), std::string::npos)
      << first_fault(digest_7 + "  \n");
}

TEST(Manifest, QuotesTheFirstFortyCharactersOfALineThatIsNone) {
  EXPECT_NE(first_fault(std::string(50, 'x') + "\n").find("'" + std::string(40, 'x') + "' …"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::manifest_test

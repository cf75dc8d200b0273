// SPDX-License-Identifier: MIT
#include "driftwarden/evidence/comparison.hpp"

#include <gtest/gtest.h>

namespace driftwarden::comparison_test {
namespace {

std::string told(const std::string& file, const std::string& packed, const std::string& now) {
  std::string text;
  for (const TextDifference& difference : compared(file, packed, now, 100).differences)
    text += to_text(difference) + (difference.is_figure ? " (figure)" : "") + "\n";
  return text;
}

TEST(TextComparison, FindsNothingInTheSameText) {
  const TextComparison comparison = compared("a.csv", "x", "x", 10);
  EXPECT_EQ(comparison.count, 0U);
  EXPECT_TRUE(comparison.differences.empty());
}

TEST(TextComparison, NamesSampleColumnAndBothFigures) {
  EXPECT_EQ(told("data/results/screen.csv", "sample,verdict,drift\nS-1,valid,1.5\nS-2,void,-7\n",
                 "sample,verdict,drift\nS-1,valid,1.5\nS-2,valid,-3\n"),
            "data/results/screen.csv: sample 'S-2', verdict: packed 'void', now 'valid' (figure)\n"
            "data/results/screen.csv: sample 'S-2', drift: packed '-7', now '-3' (figure)\n");
}

TEST(TextComparison, NamesSamplesThatAreOnOneSideOnly) {
  EXPECT_EQ(told("s.csv", "sample,verdict\nS-1,valid\n", "sample,verdict\nS-2,void\n"),
            "s.csv: sample 'S-1': packed 'S-1,valid', now '(nothing)' (figure)\n"
            "s.csv: sample 'S-2': packed '(nothing)', now 'S-2,void' (figure)\n");
}

TEST(TextComparison, TakesANewColumnForANewForm) {
  EXPECT_EQ(told("s.csv", "sample,drift\nS-1,2\n", "sample,minutes,drift\nS-1,480,2\n"),
            "s.csv: line 1: packed 'sample,drift', now 'sample,minutes,drift'\n");
}

TEST(TextComparison, GoesByLinesWhereATableHasNoNames) {
  EXPECT_EQ(told("s.csv", "file,line\na,1\na,2\n", "file,line\na,1\na,3\n"),
            "s.csv: line 3: packed 'a,2\\x0a', now 'a,3\\x0a'\n");
  EXPECT_EQ(told("s.csv", "a,\"1\nb,2\n", "a,1\nb,2\n"), "s.csv: line 1: packed 'a,\"1\\x0a', now 'a,1\\x0a'\n");
}

TEST(TextComparison, GoesByLinesWhereOnlyTheWritingDiffers) {
  EXPECT_EQ(
      told("s.csv", "a,b\nx,1\n", "a,b\r\nx,1\r\n"),
      "s.csv: line 1: packed 'a,b\\x0a', now 'a,b\\x0d\\x0a'\ns.csv: line 2: packed 'x,1\\x0a', now 'x,1\\x0d\\x0a'\n");
  EXPECT_EQ(told("s.json", "{\"a\":1}", "{ \"a\":1}"), "s.json: line 1: packed '{\"a\":1}', now '{ \"a\":1}'\n");
}

TEST(TextComparison, NamesTheMemberOfAJsonDocument) {
  EXPECT_EQ(told("s.json", R"({"samples":[{"flow":2,"message":"a"}],"old":1})",
                 R"({"samples":[{"flow":3,"message":"b"}],"new":1})"),
            "s.json: old: packed '1', now '(nothing)'\n"
            "s.json: samples[0].flow: packed '2', now '3' (figure)\n"
            "s.json: samples[0].message: packed 'a', now 'b'\n"
            "s.json: new: packed '(nothing)', now '1'\n");
}

TEST(TextComparison, NamesTheLineOfOtherTexts) {
  EXPECT_EQ(told("w.txt", "one\ntwo\n", "one\nTwo\nthree"),
            "w.txt: line 2: packed 'two\\x0a', now 'Two\\x0a'\nw.txt: line 3: packed '(nothing)', now 'three'\n");
}

TEST(TextComparison, ShowsNoControlCharacters) {
  EXPECT_EQ(told("w.txt", "\x1b[31m", ""), "w.txt: line 1: packed '\\x1b[31m', now '(nothing)'\n");
}

TEST(TextComparison, CountsWhatItDoesNotList) {
  std::string packed;
  std::string now;
  for (int i = 0; i < 50; ++i) {
    packed += "a\n";
    now += "b\n";
  }
  const TextComparison comparison = compared("w.txt", packed, now, 3);
  EXPECT_EQ(comparison.count, 50U);
  EXPECT_EQ(comparison.differences.size(), 3U);
  EXPECT_EQ(comparison.figures, 0U);
}

}  // namespace
}  // namespace driftwarden::comparison_test

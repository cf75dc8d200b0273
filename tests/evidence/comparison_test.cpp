// SPDX-License-Identifier: MIT
#include "evidence/comparison.hpp"

#include <gtest/gtest.h>

namespace driftwarden::comparison_test {
namespace {

std::string told(const std::string& file, const std::string& packed, const std::string& now) {
  std::string text;
  for (const TextDifference& difference : compared(file, packed, now, 100).differences)
    text += to_text(difference) + "\n";
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
            "data/results/screen.csv: sample 'S-2', verdict: packed 'void', now 'valid'\n"
            "data/results/screen.csv: sample 'S-2', drift: packed '-7', now '-3'\n");
}

TEST(TextComparison, NamesSamplesThatAreOnOneSideOnly) {
  EXPECT_EQ(told("s.csv", "sample,verdict\nS-1,valid\n", "sample,verdict\nS-2,void\n"),
            "s.csv: sample 'S-1': packed 'S-1,valid', now '(nothing)'\n"
            "s.csv: sample 'S-2': packed '(nothing)', now 'S-2,void'\n");
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
            "s.json: samples[0].flow: packed '2', now '3'\n"
            "s.json: samples[0].message: packed 'a', now 'b'\n"
            "s.json: new: packed '(nothing)', now '1'\n");
}

TEST(TextComparison, NamesTheLineOfOtherTexts) {
  EXPECT_EQ(told("w.txt", "one\ntwo\n", "one\nTwo\nthree"),
            "w.txt: line 2: packed 'two\\x0a', now 'Two\\x0a'\nw.txt: line 3: packed '(nothing)', now 'three'\n");
}

TEST(TextComparison, ComparesFiguresAsNumbers) {
  const auto both = [](const std::string& file, const std::string& packed, const std::string& now) {
    const TextComparison comparison = compared(file, packed, now, 10);
    return std::pair(comparison.count, comparison.last_digits);
  };
  using Pair = std::pair<std::size_t, std::size_t>;
  EXPECT_EQ(both("s.csv", "sample,drift\nS,2.0000000000001\n", "sample,drift\nS,2.0000000000003\n"), Pair(0, 1));
  EXPECT_EQ(both("s.json", R"({"a":2.0000000000001,"b":7})", R"({"a":2.0000000000003,"b":7})"), Pair(0, 1));
  EXPECT_EQ(both("s.csv", "sample,drift\nS,1000000000000.5\n", "sample,drift\nS,1000000000001.5\n"), Pair(0, 1));
  EXPECT_EQ(both("s.csv", "sample,drift\nS,1000000000000.5\n", "sample,drift\nS,1000000000002.5\n"), Pair(1, 0));
  EXPECT_EQ(both("s.csv", "sample,drift\nS,2.00000000001\n", "sample,drift\nS,2.00000000002\n"), Pair(1, 0));
  EXPECT_EQ(both("s.csv", "sample,drift\nS,2\n", "sample,drift\nS,2.0\n"), Pair(1, 0)) << "one figure, two ways";
  EXPECT_EQ(both("s.csv", "sample,serial\nS,10000000000001\n", "sample,serial\nS,10000000000002\n"), Pair(1, 0));
  EXPECT_EQ(both("s.txt", "2.0000000000001\n", "2.0000000000003\n"), Pair(1, 0))
      << "of other texts, every character counts";
}

TEST(TextComparison, LastDigitsHideNothing) {
  EXPECT_GT(compared("s.csv", "sample,a\nS,2.0000000000001\nT,1\n", "sample,a\nT,1\nS,2.0000000000003\n", 10).count,
            0U);
  EXPECT_GT(
      compared("s.csv", "sample,a\nS,2.0000000000001\nS,2.0000000000001\n", "sample,a\nS,2.0000000000003\n", 10).count,
      0U);
  EXPECT_GT(
      compared("s.json", R"({"a":2.0000000000001,"v":"x","v":"y"})", R"({"a":2.0000000000003,"v":"y"})", 10).count, 0U);
}

TEST(TextComparison, ForgivesAWordingThatIsKnownToHaveChanged) {
  const std::vector<Rewording> known{{"too late", "overdue"}};
  const auto both = [&](const std::string& packed, const std::string& now) {
    const TextComparison comparison = compared("w.txt", packed, now, 10, known);
    return std::pair(comparison.count, comparison.reworded);
  };
  using Pair = std::pair<std::size_t, std::size_t>;
  EXPECT_EQ(both("a\nis too late, too late\n", "a\nis overdue, overdue\n"), Pair(0, 1));
  EXPECT_EQ(both("a\nis too late by 3\n", "a\nis overdue by 4\n"), Pair(1, 0));
  EXPECT_EQ(both("overdue\n", "too late\n"), Pair(1, 0)) << "not the other way round";
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
}

// A member that stands there twice, with another figure in the one that doesn't count.
TEST(TextComparison, LastDigitsHideNoOtherFigureBesideThem) {
  EXPECT_GT(
      compared("s.json", R"({"b":1.5,"b":7,"a":2.0000000000001})", R"({"b":3.5,"b":7,"a":2.0000000000003})", 10).count,
      0U);
  const std::string packed = R"({"a":2.0000000000001})";
  const std::string now = R"({"a":2.0000000000003})";
  EXPECT_GT(compared("s.json", packed + " ", now, 10).count, 0U);
  EXPECT_GT(compared("s.json", packed, now + " ", 10).count, 0U);
}

// input: figures that lie a little nearer than a relative 1e-12, and a little farther; cells that are half a figure.
TEST(TextComparison, KnowsWhatIsLastDigitsByATrillionth) {
  const auto both = [](const std::string& packed, const std::string& now) {
    const TextComparison comparison =
        compared("s.csv", "sample,a\nS," + packed + "\n", "sample,a\nS," + now + "\n", 10);
    return std::pair(comparison.count, comparison.last_digits);
  };
  using Pair = std::pair<std::size_t, std::size_t>;
  EXPECT_EQ(both("1.00000000000000", "1.00000000000099"), Pair(0, 1));
  EXPECT_EQ(both("1.00000000000000", "1.00000000000102"), Pair(1, 0));
  EXPECT_EQ(both("1.5", "x.5"), Pair(1, 0));
  EXPECT_EQ(both("x.5", "1.5"), Pair(1, 0));
}

TEST(TextComparison, SaysWhatAFigureIsAbout) {
  const auto about = [](const std::string& file, const std::string& packed, const std::string& now) {
    return compared(file, packed, now, 10).differences.at(0).about;
  };
  EXPECT_EQ(about("s.json", R"({"samples":[{"flow":2}]})", R"({"samples":[{"flow":3}]})"), "flow");
  EXPECT_EQ(about("s.json", R"({"flow":2})", R"({"flow":3})"), "flow");
  EXPECT_EQ(about("s.csv", "sample,drift\nS,1\n", "sample,drift\nS,2\n"), "drift");
}

TEST(TextComparison, TellsAFigureFromATextThatLooksLikeIt) {
  EXPECT_EQ(told("s.json", R"({"a":1})", R"({"a":"1"})"), "s.json: a: packed '1', now '1'\n");
}

TEST(TextComparison, CountsNoLastDigitsWhereItWentByLines) {
  EXPECT_EQ(compared("s.json", R"({"a":2.0000000000001} )", R"({"a":2.0000000000003})", 10).last_digits, 0U);
}

TEST(TextComparison, KnowsTheLastDigitsOfAnyFigure) {
  for (const auto& [packed, now] :
       {std::pair{"-2.0000000000001", "-2.0000000000003"}, std::pair{"0.50000000000001", "0.50000000000003"},
        std::pair{"9.0000000000001", "9.0000000000003"}}) {
    const TextComparison comparison =
        compared("s.json", std::string("{\"a\":") + packed + "}", std::string("{\"a\":") + now + "}", 10);
    EXPECT_EQ(comparison.count, 0U) << packed;
    EXPECT_EQ(comparison.last_digits, 1U) << packed;
  }
}

TEST(TextComparison, GoesByLinesWhereOneOfBothIsNoTable) {
  EXPECT_EQ(told("s.csv", "a,b\nx,1\n", "a,b\nx,1\nx,1\n"), "s.csv: line 3: packed '(nothing)', now 'x,1\\x0a'\n");
  EXPECT_EQ(told("s.csv", "a,b\nx,1\ny\n", "a,b\nx,2\ny\n"), "s.csv: line 2: packed 'x,1\\x0a', now 'x,2\\x0a'\n");
  EXPECT_EQ(told("s.csv", "", "a,b\n"), "s.csv: line 1: packed '(nothing)', now 'a,b\\x0a'\n");
  EXPECT_EQ(told("s.csv", "a,b\nx,\"1\n", "a,b\nx,\"2\n"), "s.csv: line 2: packed 'x,\"1\\x0a', now 'x,\"2\\x0a'\n");
  EXPECT_EQ(told("s.json", "{\"a\":1}", "{\"a\":"), "s.json: line 1: packed '{\"a\":1}', now '{\"a\":'\n");
}

TEST(TextComparison, ForgivesAKnownWordingAtTheBeginningOfALine) {
  const std::vector<Rewording> known{{"too late", "overdue"}};
  const TextComparison comparison = compared("w.txt", "too late\n", "overdue\n", 10, known);
  EXPECT_EQ(comparison.count, 0U);
  EXPECT_EQ(comparison.reworded, 1U);
}

}  // namespace
}  // namespace driftwarden::comparison_test

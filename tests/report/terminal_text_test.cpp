// SPDX-License-Identifier: MIT
#include "report/terminal_text.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "report/paint.hpp"

namespace driftwarden::terminal_text_test {
namespace {

TEST(TerminalText, KeepsWhatShowsItself) {
  EXPECT_EQ(for_terminal("Tamber Fold, 25 °C — 漢字 \"quoted\" <b>"), "Tamber Fold, 25 °C — 漢字 \"quoted\" <b>");
  EXPECT_EQ(for_terminal(""), "");
}

TEST(TerminalText, WritesWhatActsOnATerminalByItsBytes) {
  EXPECT_EQ(for_terminal("a\x1b[2Jb"), "a\\x1b[2Jb");
  EXPECT_EQ(for_terminal("bell\x07 delete\x7f"), "bell\\x07 delete\\x7f");
  EXPECT_EQ(for_terminal(std::string_view("zero\0byte", 9)), "zero\\x00byte");
  EXPECT_EQ(for_terminal("\xC2\x9B"
                         "2J"),
            "\\xc2\\x9b2J");  // U+009B begins a command, too
}

TEST(TerminalText, WritesWhatTurnsTheTextRoundByItsBytes) {
  EXPECT_EQ(for_terminal("safe\xE2\x80\xAE"
                         "dilav"),
            "safe\\xe2\\x80\\xaedilav");                       // U+202E
  EXPECT_EQ(for_terminal("\xE2\x81\xA6"), "\\xe2\\x81\\xa6");  // U+2066
}

TEST(TerminalText, KeepsALineALine) { EXPECT_EQ(for_terminal("two\r\nlines\tand a tab"), "two  lines and a tab"); }

TEST(TerminalText, WritesBytesThatAreNoUtf8ByTheirNumbers) { EXPECT_EQ(for_terminal("caf\xE9"), "caf\\xe9"); }

TEST(SafeText, KeepsLinesAndMakesTheRestSafe) {
  std::ostringstream behind;
  {
    SafeText out(behind, false);
    out << "one\ttwo\n"
        << "\x1b[1mbold\x1b[0m" << '\x07' << "\xE2\x80\xAE"
        << "\r\n"
        << 5 << "\xE9";
  }
  EXPECT_EQ(behind.str(), "one\ttwo\n\\x1b[1mbold\\x1b[0m\\x07\\xe2\\x80\\xae\\x0d\n5\\xe9");
}

TEST(SafeText, KeepsTheColoursOfPaintOnATerminalAndNoOtherCommand) {
  EXPECT_EQ(safe_text("\x1b[1;35mvoid\x1b[0m \x1b[2J \x1b[8m \x1b[", true),
            "\x1b[1;35mvoid\x1b[0m \\x1b[2J \\x1b[8m \\x1b[");
  for (const Verdict verdict : {Verdict::valid, Verdict::qualified, Verdict::undecided, Verdict::void_}) {
    const std::string painted = Paint(true).verdict(verdict, "x") + Paint(true).heading("y") + Paint(true).faint("z");
    EXPECT_EQ(safe_text(painted, true), painted);
  }
}

TEST(SafeText, HandsALineOnWhenItIsWhole) {
  std::ostringstream behind;
  SafeText out(behind, false);
  out << "one\ntw";
  EXPECT_EQ(behind.str(), "one\n");
  out << "o" << std::flush;
  EXPECT_EQ(behind.str(), "one\ntwo");
}

TEST(SafeText, FailsWithTheStreamBehindIt) {
  std::ofstream full("/dev/full");
  full << std::unitbuf;
  SafeText out(full, false);
  out << "one\n"
      << "two\n"
      << std::flush;
  EXPECT_FALSE(out);
}

TEST(SafeText, StandsAsideWhereBytesCountUnlessATerminalReads) {
  std::ostringstream behind;
  SafeText piped(behind, false);
  SafeText shown(behind, true);
  EXPECT_EQ(&exactly(piped), &behind);
  EXPECT_EQ(&exactly(shown), &shown);
  EXPECT_EQ(&exactly(behind), &behind);
}

TEST(Wrapped, BreaksAtBlanksAndIndents) {
  EXPECT_EQ(wrapped("one two three", 2, 9), "  one two\n  three\n");
  EXPECT_EQ(wrapped("one two three", 2, 8), "  one\n  two\n  three\n");
  EXPECT_EQ(wrapped("one", 0, 80), "one\n");
}

TEST(Wrapped, KeepsAFigureWithItsUnit) {
  EXPECT_EQ(wrapped("the limit is 5 %, of 2 or", 0, 15), "the limit is\n5 %, of 2 or\n");
  EXPECT_EQ(folded("flow 2.000 L/min (of 2 L)", 12), "flow\n  2.000 L/min\n  (of 2 L)");
  EXPECT_EQ(wrapped("of 24 samples", 0, 5), "of 24\nsamples\n");
}

TEST(Wrapped, LeavesALongWordWhole) { EXPECT_EQ(wrapped("a respirable b", 1, 6), " a\n respirable\n b\n"); }

TEST(Wrapped, CountsCharactersAndNotBytes) { EXPECT_EQ(wrapped("°° °°", 0, 5), "°° °°\n"); }

TEST(Folded, BreaksLongLinesBetweenWords) {
  EXPECT_EQ(folded("  one two three\nfour\n", 9), "  one two\n    three\nfour\n");
  EXPECT_EQ(folded("one  two", 8), "one  two");  // the blanks inside stay
  EXPECT_EQ(folded("unbreakable-as-it-is", 8), "unbreakable-as-it-is");
  EXPECT_EQ(folded("a unbreakable-as-it-is b", 8), "a\n  unbreakable-as-it-is\n  b");
  EXPECT_EQ(folded("\n\n", 8), "\n\n");
  EXPECT_EQ(folded("°°° °°°", 7), "°°° °°°");  // characters, not bytes
}

}  // namespace
}  // namespace driftwarden::terminal_text_test

// SPDX-License-Identifier: MIT
#include "driftwarden/report/terminal_text.hpp"

#include <gtest/gtest.h>

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

}  // namespace
}  // namespace driftwarden::terminal_text_test

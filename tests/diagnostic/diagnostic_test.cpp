// SPDX-License-Identifier: MIT
#include "diagnostic/diagnostic.hpp"

#include <gtest/gtest.h>

#include <string>

namespace driftwarden::diagnostic_test {
namespace {

TEST(Diagnostic, TellsPlaceSeverityMessageHintAndId) {
  const Diagnostic fault = error("cell/not-a-number", {"readings.csv", 17, 4}, "not a number: '1,9'", "write 1.9");
  EXPECT_EQ(to_text(fault), "readings.csv:17:4: error: not a number: '1,9'; write 1.9 [cell/not-a-number]");
}

TEST(Diagnostic, LeavesOutAnEmptyHint) {
  const Diagnostic doubt = remark("column/unknown", {"samples.csv", 1, 0}, "unknown column 'colour'");
  EXPECT_EQ(to_text(doubt), "samples.csv:1: remark: unknown column 'colour' [column/unknown]");
}

TEST(Diagnostic, BeginsWithTheSeverityWhereThereIsNoPlace) {
  EXPECT_EQ(to_text(error("book/missing", {}, "no book here")), "error: no book here [book/missing]");
}

TEST(Quoted, ShowsOrdinaryTextAsItIs) {
  EXPECT_EQ(in_quotes("2.0 L/min"), "'2.0 L/min'");
  EXPECT_EQ(in_quotes("25 °C — 漢字"), "'25 °C — 漢字'");
  EXPECT_EQ(in_quotes(""), "''");
}

TEST(Quoted, ShowsControlCharactersAsTheirBytes) {
  EXPECT_EQ(in_quotes("a\tb\nc\x1b[31m\x7f"), "'a\\x09b\\x0ac\\x1b[31m\\x7f'");
  EXPECT_EQ(in_quotes(std::string_view("a\0b", 3)), "'a\\x00b'");
  EXPECT_EQ(in_quotes("\u0085"), "'\\xc2\\x85'");
  EXPECT_EQ(in_quotes("\u00A0"), "'\u00A0'") << "the first character after the controls";
}

TEST(Quoted, ShowsMarksThatTurnTheTextRoundAsTheirBytes) {
  EXPECT_EQ(in_quotes("a\u202Eb"), "'a\\xe2\\x80\\xaeb'");
  EXPECT_EQ(in_quotes("a\u2066b"), "'a\\xe2\\x81\\xa6b'");
}

TEST(Quoted, ShowsBytesThatAreNoUtf8) {
  EXPECT_EQ(in_quotes("25 \xB0"
                      "C"),
            "'25 \\xb0C'")
      << "a degree sign in Latin-1";
  EXPECT_EQ(in_quotes("\xC0\xAF"), "'\\xc0\\xaf'") << "an overlong form";
  EXPECT_EQ(in_quotes("\xE0\x9F\xBF"), "'\\xe0\\x9f\\xbf'") << "an overlong form";
  EXPECT_EQ(in_quotes("\xED\xA0\x80"), "'\\xed\\xa0\\x80'") << "a surrogate";
  EXPECT_EQ(in_quotes("\xF4\x90\x80\x80"), "'\\xf4\\x90\\x80\\x80'") << "beyond U+10FFFF";
  EXPECT_EQ(in_quotes("\xE2\x82"), "'\\xe2\\x82'") << "cut off";
  EXPECT_EQ(in_quotes("\U0001F4A7"), "'\U0001F4A7'");
}

TEST(Quoted, ShowsSixtyCharactersAndNoMore) {
  const std::string sixty(60, 'x');
  EXPECT_EQ(in_quotes(std::string_view(sixty)), "'" + sixty + "'");
  EXPECT_EQ(in_quotes(std::string_view(sixty + "x")), "'" + sixty.substr(1) + "…'");
}

TEST(Quoted, CountsCharactersNotBytes) {
  std::string sixty;
  for (int i = 0; i < 60; ++i) sixty += "é";
  EXPECT_EQ(in_quotes(std::string_view(sixty)), "'" + sixty + "'");
  EXPECT_EQ(in_quotes(std::string_view(sixty + "é")), "'" + sixty.substr(2) + "…'");
}

}  // namespace
}  // namespace driftwarden::diagnostic_test

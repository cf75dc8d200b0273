// SPDX-License-Identifier: MIT
#include "report/lookback_table.hpp"

#include <gtest/gtest.h>

#include "report/looked_back.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden::lookback_table_test {
namespace {

std::string table(const LookedBack& looked, bool has_colour = false) {
  return lookback_table(looked.judged.screening(), looked.lookback, Paint(has_colour));
}

TEST(LookbackTable, TellsWhatWasFoundAndSinceWhen) {
  const std::string text = table(LookedBack());
  EXPECT_NE(text.find("found      V1/found: 10.0 % at 2 L/min as found; tolerance ±2 % (certificate\n"
                      "           V1/found) [certificates.csv:5]\n"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("from 2026-03-01 to before 2026-03-11 (10 days)"), std::string::npos) << text;
  EXPECT_NE(text.find("through    V2/against-V1 of V2, made against V1 on 2026-03-06"), std::string::npos) << text;
}

TEST(LookbackTable, ShowsThreeLinesASampleAndWhatChanges) {
  const std::string text = table(LookedBack());
  EXPECT_NE(text.find("S3     before   2.200      0.0     1056                 valid\n"
                      "       sudden   2.100     10.0     1008                 void  <- changes\n"
                      "         + void: The flow rose 10.0 %, from 2.000 L/min before sampling to\n         2.200 "
                      "L/min after; the limit is 5 % (own/drift)\n"),
            std::string::npos)
      << text;
  EXPECT_EQ(times(text, "<- changes"), 2U);
}

TEST(LookbackTable, GroupsTheSamplesByWhatChanges) {
  const std::string text = table(LookedBack());
  const std::size_t verdict = text.find("\n\nThe verdict changes: 1 sample\nwithout a batch\nS3 ");
  const std::size_t figures =
      text.find("\n\nThe verdict stays, figures or findings change: 2 samples\nwithout a batch\nS1 ");
  const std::size_t nothing = text.find("\n\nNothing changes: 1 sample\nwithout a batch\nS4 ");
  ASSERT_NE(nothing, std::string::npos) << text;
  EXPECT_LT(verdict, figures);
  EXPECT_LT(figures, nothing);
}

TEST(LookbackTable, SaysThatTheDriftStandsAndTheVolumeDoesNot) {
  const std::string text = table(LookedBack());
  EXPECT_NE(text.find("Same calibrator before and after: the drift stands, the volume does not.\n"
                      "  S1, S2 (pre via V2, post via V2)\n"),
            std::string::npos)
      << text;
}

TEST(LookbackTable, SumsUpAndTellsItsCautions) {
  EXPECT_TRUE(table(LookedBack())
                  .ends_with("4 samples leaned on it; the verdict of 1 changes if the error came suddenly, of\n"
                             "1 if it grew linearly.\n\n" +
                             wrapped(verdict_key_text(KeyOf::verdicts_and_findings), 0, table_width) + "\n" +
                             wrapped(cautions, 0, table_width)));
}

TEST(LookbackTable, OfAnOpenWindowHasNoLinearLines) {
  const std::string text = table(LookedBack(open_window_text()));
  EXPECT_EQ(text.find("\n       linear"), std::string::npos) << text;
  EXPECT_NE(text.find("from the first record to before"), std::string::npos) << text;
}

TEST(LookbackTable, SaysWhoHadIt) {
  BookText of = lookback_text();
  of.issues = "kit,instrument,out,to,back\nK-1,V1,2026-03-05,north crew,2026-03-06\n";
  const std::string text = table(LookedBack(of));
  EXPECT_NE(text.find("had by     north crew (kit K-1), from 2026-03-05 to 2026-03-06\n"), std::string::npos) << text;
  EXPECT_NE(text.find("         had by: north crew (kit K-1)\n"), std::string::npos) << text;
  EXPECT_EQ(table(LookedBack()).find("had by"), std::string::npos);
}

TEST(LookbackTable, ColoursOnlyOnATerminal) {
  EXPECT_EQ(table(LookedBack()).find('\x1b'), std::string::npos);
  EXPECT_NE(table(LookedBack(), true).find("\x1b[1;35mvoid"), std::string::npos);
}

TEST(LookbackTable, KeepsToEightyColumns) {
  const std::string text = table(LookedBack());
  for (std::size_t at = 0, end; at < text.size(); at = end + 1) {
    end = text.find('\n', at);
    EXPECT_LE(characters_in(std::string_view(text).substr(at, end - at)), 80U) << text.substr(at, end - at);
  }
}

}  // namespace
}  // namespace driftwarden::lookback_table_test

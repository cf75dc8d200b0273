// SPDX-License-Identifier: MIT
#include "doubt/results_at_odds.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"
#include "record/moment.hpp"
#include "support/book_text.hpp"

namespace driftwarden::results_at_odds_test {
namespace {

// S1 and the blanks K1 and K2 of one batch, and the blank K9 of another; each a result of dust but what is said.
// Invented.
std::string doubts(const std::string& results, std::optional<Day> as_of = {}) {
  BookText text;
  text.samples =
      "sample,kind,batch,pump,started,stopped\nS1,sample,B,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "K1,blank,B,,,\nK2,blank,B,,,\nK9,blank,b,,,\n";
  text.results = "sample,analyte,amount [mg],limit [mg],reported\n" + results;
  Diagnostics found;
  note_results(book_of(text), as_of, found);
  return told(found);
}

const std::string sample = "S1,dust,0.5,0.03,2026-10-01\n";
const std::string both_blanks = "K1,dust,nd,0.03,2026-10-01\nK2,dust,nd,0.03,2026-10-01\n";

TEST(ResultsAtOdds, AreNoneWhereSampleAndBlanksHaveOneAnalyte) {
  EXPECT_EQ(doubts(sample + both_blanks), "");
  EXPECT_EQ(doubts(""), "");
}

TEST(ResultsAtOdds, AreAnalytesThatDifferInCapitalsOrBlanksAlone) {
  EXPECT_EQ(
      doubts(sample + "K1,Dust,nd,0.03,2026-10-01\nK2,du st,nd,0.03,2026-10-01\n"),
      "results.csv:4: remark: the analyte 'du st' is called 'Dust' in results.csv:3; they are taken for one; call "
      "it the same everywhere: rules and readers may not take them for one [doubt/analyte]\n"
      "results.csv:2: remark: the analyte 'dust' is called 'Dust' in results.csv:3; they are taken for one; call "
      "it the same everywhere: rules and readers may not take them for one [doubt/analyte]\n");
}

TEST(ResultsAtOdds, AreBlanksOfWhatNoSampleOfTheirBatchHas) {
  const std::string hint =
      ": nothing leans on it; the analyte, its unit, the blank or its batch is written otherwise than of the samples; "
      "or those of the samples are still to come [doubt/lone-blank]\n";
  EXPECT_EQ(doubts(sample + both_blanks + "K1,dusst,0.9,0.03,2026-10-01\n"),
            "results.csv:5: remark: the blank K1 has a result of 'dusst' (mass), and no sample of its batch 'B' has "
            "one" +
                hint);
  EXPECT_EQ(doubts(sample + both_blanks + "K9,dust,0.9,0.03,2026-10-01\n"),
            "results.csv:5: remark: the blank K9 has a result of 'dust' (mass), and no sample of its batch 'b' has "
            "one" +
                hint);
}

TEST(ResultsAtOdds, AreBlanksWithoutAResultOfWhatSamplesHave) {
  EXPECT_EQ(doubts(sample + "K1,dust,nd,0.03,2026-10-01\n"),
            "results.csv:2: remark: of the 2 blanks of the batch 'B' K2 has no result of 'dust', and samples have; add "
            "what the laboratory found on it, or ask for it; the others stand for the batch alone "
            "[doubt/silent-blank]\n");
  EXPECT_EQ(
      doubts(sample),
      "results.csv:2: remark: of the 2 blanks of the batch 'B' K1, K2 have no result of 'dust', and samples have; "
      "add what the laboratory found on them, or ask for it [doubt/silent-blank]\n");
}

TEST(ResultsAtOdds, AreNotOfWhatWasReportedLater) {
  const Day before = day_from({2026, 9, 30});
  EXPECT_EQ(doubts(sample + "K1,Dust,nd,0.03,2026-10-01\n", before), "");
  EXPECT_NE(doubts(sample, before + 1), "");
}

}  // namespace
}  // namespace driftwarden::results_at_odds_test

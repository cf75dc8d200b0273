// SPDX-License-Identifier: MIT
#include "report/screen_table.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "report/terminal_text.hpp"
#include "support/book_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden::screen_table_test {
namespace {

constexpr std::size_t page_width = 80;

std::string table_of(JudgedBook& book, Paint paint = Paint(false)) {
  std::vector<Row> rows(book.book().samples.size());
  std::iota(rows.begin(), rows.end(), Row{0});
  const ScreenTable table(book.screening(), rows, paint);
  std::string out = table.head();
  Totals totals;
  for (const Row row : rows) {
    const SampleResult& result = book.result(book.book().samples.name[row]);
    totals.count(result.verdict, result.standing);
    table.append(out, result, row == 0 ? no_row : row - 1);
  }
  return out + table.tail(totals, {});
}

std::string table_of(const BookText& text, const RulesText& rules = {}) {
  JudgedBook book(text, rules);
  return table_of(book);
}

RulesText drift_within(const std::string& limit) { return {{{Subject::sample, "drift", "within", {limit}}}}; }

TEST(ScreenTable, IsATableForPeople) {
  BookText text;
  text.samples =
      "sample,batch,kind,pump,started,stopped,temperature [°C],pressure [kPa]\n"
      "S1,B-7,sample,P1,2026-09-21T08:00,2026-09-21T16:00,25,101.325\n"
      "B1,B-7,blank,,,,,\n";
  EXPECT_EQ(table_of(text, drift_within("2 %")),
            "Quarry\n"
            "Flows in L/min, actual, at the conditions of the readings; volumes in L: actual,\n"
            "its expanded uncertainty U (95 %), and at 25 °C, 101.325 kPa (ref.).\n"
            "Decision rule: simple acceptance: a figure on its limit is accepted; given this\n"
            "reading and no other knowledge, the true value then lies beyond that end of the\n"
            "limit with a probability of up to 50 %.\n"
            "\n"
            "sample verdict   pump    min    pre   post drift %  volume    U    ref.\n"
            "batch B-7\n"
            "S1     void      P1      480  2.000  1.950    -2.5   948.0        948.0\n"
            "       - void: The flow fell 2.5 %, from 2.000 L/min before sampling to\n"
            "       1.950 L/min after; the limit is 2 % (own/drift)\n"
            "B1     valid     blank\n"
            "\n"
            "2 samples and blanks: 1 valid, 0 qualified, 0 undecided, 1 void\n\n" +
                wrapped(verdict_key_text(KeyOf::verdicts_and_findings), 0, table_width) + "\n" +
                wrapped(cautions, 0, table_width));
}

TEST(ScreenTable, NamesABatchAboveItsFirstSampleOnly) {
  BookText text;
  text.samples =
      "sample,batch,pump,started,stopped\n"
      "S1,,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,B-7,P2,2026-09-21T08:00,2026-09-21T16:00\n"
      "S3,B-7,P1,2026-09-22T08:00,2026-09-22T16:00\n"
      "S4,,P1,2026-09-23T08:00,2026-09-23T16:00\n";
  const std::string table = table_of(text);
  EXPECT_NE(table.find("\nS1 "), std::string::npos);
  EXPECT_EQ(table.find("batch B-7"), table.rfind("batch B-7"));
  EXPECT_NE(table.find("\n\nbatch B-7\nS2 "), std::string::npos) << table;
  EXPECT_NE(table.find("\n\nwithout a batch\nS4 "), std::string::npos) << table;
}

// A drift of 5.04 % that is void must not print as 5.0 %.
TEST(ScreenTable, NeverRoundsADriftAcrossItsLimit) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading "
      "[L/min]\n2026-09-21T07:30,pre,S1,V1,2.0000\n2026-09-21T16:10,post,S1,V1,1.8992\n";
  const std::string table = table_of(text, drift_within("5 %"));
  EXPECT_NE(table.find("  1.899   -5.04  "), std::string::npos) << table;
  EXPECT_NE(
      table.find(
          "The flow fell 5.04 %, from 2.000 L/min before sampling to\n       1.899 L/min after; the limit is 5 %"),
      std::string::npos)
      << table;
}

TEST(ScreenTable, ShowsReferenceConditionsThatAreNoWholeDegrees) {
  BookText text;
  text.settings += "[reference]\ntemperature = \"70 °F\"\npressure = \"101.3 kPa\"\n";
  EXPECT_NE(table_of(text).find("21.11 °C, 101.300 kPa"), std::string::npos) << table_of(text);
}

TEST(ScreenTable, LeavesMissingFiguresBlankAndNoBlanksAtTheEndOfALine) {
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::string table = table_of(text);
  EXPECT_NE(table.find("S1     valid     P1      480\n"), std::string::npos) << table;
  EXPECT_EQ(table.find(" \n"), std::string::npos) << table;
}

TEST(ScreenTable, KeepsToItsWidthAndToColumnsOfLongNames) {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\n"
      "TUNNEL-44-A,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "Bø,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::string table = table_of(text, drift_within("5 %"));
  EXPECT_NE(table.find("\nBø          undecided P2 "), std::string::npos) << table;
  for (std::size_t begin = 0; begin < table.size();) {
    const std::size_t end = table.find('\n', begin);
    EXPECT_LE(characters_in(table.substr(begin, end - begin)), page_width) << table.substr(begin, end - begin);
    begin = end + 1;
  }
}

TEST(ScreenTable, PutsNamesThatAreTooLongOnALineOfTheirOwn) {
  BookText text;
  text.instruments += "A-PUMP-WITH-A-VERY-LONG-NAME,pump,\n";
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "A-SAMPLE-WITH-A-VERY-LONG-NAME,P2,2026-09-21T08:00,2026-09-21T16:00\n"
      "S3,A-PUMP-WITH-A-VERY-LONG-NAME,2026-09-21T08:00,2026-09-21T16:00\n";
  const std::string table = table_of(text, drift_within("5 %"));
  EXPECT_NE(table.find("\nA-SAMPLE-WITH-A-VERY-LONG-NAME\n            undecided P2 "), std::string::npos) << table;
  EXPECT_NE(table.find("\nS3, pump A-PUMP-WITH-A-VERY-LONG-NAME\nS3          undecided "), std::string::npos) << table;
  for (std::size_t begin = 0; begin < table.size();) {
    const std::size_t end = table.find('\n', begin);
    EXPECT_LE(characters_in(table.substr(begin, end - begin)), page_width) << table.substr(begin, end - begin);
    begin = end + 1;
  }
}

TEST(ScreenTable, ShowsARulingBesideItsFindingAndCountsApartWhatStandsByDecision) {
  BookText text;
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S1,own/drift,overrule,looked at\n";
  const std::string table = table_of(text, drift_within("2 %"));
  EXPECT_NE(table.find("\nS1     void      P1 "), std::string::npos) << table;
  EXPECT_NE(table.find("\n       - void: The flow fell 2.5 %, from 2.000 L/min before sampling to\n"
                       "       1.950 L/min after; the limit is 2 % (own/drift)\n"
                       "         overruled by site hygienist, 2026-09-22T10:00+00:00: looked at\n"
                       "         [decisions.csv:2]\n"
                       "       = void, but counts as valid by decision\n"),
            std::string::npos)
      << table;
  EXPECT_NE(
      table.find("\n1 sample: 0 valid, 0 qualified, 0 undecided, 1 void\nof these, by decision: 1 counts as valid\n"),
      std::string::npos)
      << table;
}

TEST(ScreenTable, LetsNoTextOfTheBookActOnTheTerminal) {
  BookText text;
  text.instruments += "P\x1b[1m,pump,\n";
  text.samples = "sample,batch,pump,started,stopped\nS\x1b]0;,B\x07,P\x1b[1m,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::string table = table_of(text, drift_within("2 %"));
  EXPECT_EQ(table.find('\x1b'), std::string::npos) << table;
  EXPECT_EQ(table.find('\x07'), std::string::npos) << table;
  EXPECT_NE(table.find("S\\x1b]0;"), std::string::npos) << table;
}

TEST(ScreenTable, HasTheSameTextWithAndWithoutColour) {
  JudgedBook book(BookText(), drift_within("2 %"));
  std::string coloured = table_of(book, Paint(true));
  for (std::size_t at; (at = coloured.find('\x1b')) != std::string::npos;)
    coloured.erase(at, coloured.find('m', at) - at + 1);
  EXPECT_EQ(coloured, table_of(book));
}

TEST(ScreenTable, CountsOneSampleAsOne) {
  EXPECT_NE(table_of(BookText()).find("\n1 sample: 1 valid, 0 qualified, 0 undecided, 0 void\n"), std::string::npos);
}

TEST(ScreenTable, TellsOfSubjectsApartFromTheSamples) {
  JudgedBook book(BookText(), {{{Subject::batch, "blanks", "at_least", {"1"}}}});
  SubjectResult batch;
  batch.of = Subject::batch;
  batch.name = "B-7";
  batch.findings.push_back({{0, {Outcome::qualified, 0, 1, -1}, no_row, missing}, 6, "6 samples and blanks", "B-7"});
  const std::string tail = ScreenTable(book.screening(), {0}, Paint(false)).tail({}, {batch});
  EXPECT_NE(tail.find("- qualified: Batch B-7 has no blank (6 samples and blanks); the"), std::string::npos) << tail;
  EXPECT_NE(tail.find("(own/blanks)"), std::string::npos) << tail;
}

}  // namespace
}  // namespace driftwarden::screen_table_test

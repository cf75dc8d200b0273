// SPDX-License-Identifier: MIT
#include "report/screen_csv.hpp"

#include <gtest/gtest.h>

#include "quantity/number.hpp"
#include "support/book_text.hpp"

namespace driftwarden::screen_csv_test {
namespace {

// derived: 2.01 before and 1.945 after are 1.9775 L/min in the mean.

// The cells of a line of the result, by their headings. No cell of these books holds a comma.
std::vector<std::string> cells_of(std::string_view line) {
  std::vector<std::string> cells(1);
  for (const char c : line.substr(0, line.size() - 1)) {
    if (c == ',') {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

class ScreenCsv : public ::testing::Test {
 protected:
  std::string cell(JudgedBook& book, std::string_view sample, std::string_view heading) {
    std::string line;
    append_screen_csv(line, book.screening(), book.result(sample));
    const std::vector<std::string> names = cells_of(screen_csv_headings());
    const std::vector<std::string> cells = cells_of(line);
    EXPECT_EQ(cells.size(), names.size()) << line;
    for (std::size_t i = 0; i < names.size() && i < cells.size(); ++i) {
      if (names[i] == heading) return cells[i];
    }
    return "no such column";
  }
};

// The columns that other programs lean on, in their order.
TEST_F(ScreenCsv, BeginsWithTheColumnsThatArePromised) {
  EXPECT_TRUE(
      screen_csv_headings().starts_with("sample,batch,verdict,pump,minutes,pre_n,pre_l_min,pre_sd_l_min,post_n,post_l_"
                                        "min,post_sd_l_min,drift_percent,flow_l_min,"
                                        "volume_l,volume_expanded_uncertainty_l,volume_reference_l,findings"));
  EXPECT_TRUE(screen_csv_headings().ends_with("\n"));
}

TEST_F(ScreenCsv, TellsHowASampleStandsByDecisionBehindThem) {
  BookText text;
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S1,own/drift,overrule,looked at\n";
  const RulesText rules{{{Subject::sample, "drift", "within", {"2 %"}}}};
  JudgedBook before(BookText(), rules);
  EXPECT_EQ(cell(before, "S1", "by_decision"), "");
  EXPECT_EQ(cell(before, "S1", "decisions"), "");
  JudgedBook book(text, rules);
  std::string line;
  append_screen_csv(line, book.screening(), book.result("S1"));
  EXPECT_TRUE(line.starts_with("S1,,void,P1,")) << line;  // the verdict is its findings'
  EXPECT_TRUE(line.ends_with(
      ",drift,0,,valid,\"own/drift overruled by site hygienist, 2026-09-22T10:00+00:00: looked at\",measured,948,\n"))
      << line;
}

TEST_F(ScreenCsv, HasEveryFigureInFull) {
  BookText text;
  text.samples =
      "sample,batch,pump,started,stopped,temperature [°C],pressure [kPa]\n"
      "S1,B-7,P1,2026-09-21T08:00,2026-09-21T16:00,25,101.325\n";
  text.readings += "2026-09-21T07:31,pre,S1,V1,2.010\n";
  JudgedBook book(text);
  EXPECT_EQ(cell(book, "S1", "sample"), "S1");
  EXPECT_EQ(cell(book, "S1", "batch"), "B-7");
  EXPECT_EQ(cell(book, "S1", "verdict"), "valid");
  EXPECT_EQ(cell(book, "S1", "pump"), "P1");
  EXPECT_EQ(cell(book, "S1", "minutes"), "480");
  EXPECT_EQ(cell(book, "S1", "pre_n"), "2");
  EXPECT_EQ(cell(book, "S1", "post_n"), "1");
  EXPECT_EQ(cell(book, "S1", "post_l_min"), "1.95");
  EXPECT_EQ(cell(book, "S1", "post_sd_l_min"), "");  // one reading has no spread
  EXPECT_EQ(number_from(cell(book, "S1", "pre_l_min")), book.figures("S1").pre_l_min);
  EXPECT_EQ(number_from(cell(book, "S1", "pre_sd_l_min")), book.figures("S1").pre_set()->flow.s);
  EXPECT_EQ(number_from(cell(book, "S1", "drift_percent")), 100 * book.figures("S1").drift);
  EXPECT_EQ(number_from(cell(book, "S1", "flow_l_min")), book.figures("S1").flow_l_min);
  EXPECT_EQ(number_from(cell(book, "S1", "volume_l")), book.figures("S1").volume_l);
  EXPECT_EQ(number_from(cell(book, "S1", "volume_reference_l")), book.figures("S1").volume_reference_l);
  EXPECT_NEAR(number_from(cell(book, "S1", "volume_reference_l")).value(), 480 * 1.9775, 1e-9);
}

TEST_F(ScreenCsv, LeavesMissingFiguresEmptyAndCountsNoReadingsAsNone) {
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  JudgedBook book(text);
  EXPECT_EQ(cell(book, "S1", "pre_n"), "0");
  EXPECT_EQ(cell(book, "S1", "post_n"), "0");
  for (const char* figure :
       {"pre_l_min", "post_l_min", "drift_percent", "flow_l_min", "volume_l", "volume_reference_l"}) {
    EXPECT_EQ(cell(book, "S1", figure), "") << figure;
  }
  EXPECT_EQ(cell(book, "S1", "minutes"), "480");
}

TEST_F(ScreenCsv, LeavesWhatABlankHasNotEmpty) {
  BookText text;
  text.samples = "sample,kind,batch,pump,started,stopped\nB1,blank,B-7,,,\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  JudgedBook book(text);
  std::string line;
  append_screen_csv(line, book.screening(), book.result("B1"));
  EXPECT_TRUE(line.starts_with("B1,B-7,valid,,,,,,,,,,,,,,")) << line;
}

TEST_F(ScreenCsv, JoinsTheIdsOfItsFindings) {
  RuleText note{Subject::sample, "minutes", "at_least", {"500 min"}};
  note.otherwise = Otherwise::note;
  JudgedBook book(
      BookText(),
      {{{Subject::sample, "drift", "within", {"2 %"}}, note, {Subject::sample, "flow", "at_least", {"1 L/min"}}}});
  EXPECT_EQ(cell(book, "S1", "findings"), "drift;minutes");
  EXPECT_EQ(cell(book, "S1", "verdict"), "void");
}

// own input: drift -2.5 % exactly, on the limit: beyond that end with a probability of one half, and with one degree of
// freedom beyond the other, 71.6 u away, with 1 / (71.6 π) = 0.0044, computed by hand.
TEST_F(ScreenCsv, TellsTheDecisionRuleAndTheLargestProbabilityOfALimitBeingPassed) {
  BookText text;
  text.settings += "[decision]\nguard = 0.5\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,1.999\n"
      "2026-09-21T07:31,pre,S1,V1,2.001\n2026-09-21T16:10,post,S1,V1,1.949\n2026-09-21T16:11,post,S1,V1,1.951\n";
  JudgedBook book(text, {{{Subject::sample, "drift", "within", {"2.5 %"}}}});
  EXPECT_EQ(cell(book, "S1", "guard"), "0.5");
  EXPECT_NEAR(number_from(cell(book, "S1", "probability_beyond")).value(), 0.5044, 5e-5);
  JudgedBook plain((BookText()));
  EXPECT_EQ(cell(plain, "S1", "guard"), "0");
  EXPECT_EQ(cell(plain, "S1", "probability_beyond"), "");
}

TEST_F(ScreenCsv, NamesFaultyRecords) {
  BookText text;
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n";
  JudgedBook book(text);
  EXPECT_EQ(cell(book, "S1", "findings"), "faulty-records");
  EXPECT_EQ(cell(book, "S1", "verdict"), "undecided");
}

TEST_F(ScreenCsv, QuotesNamesThatHoldASeparator) {
  BookText text;
  text.samples = "sample,batch,pump,started,stopped\n\"S,1\",\"a \"\"b\"\"\",P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  JudgedBook book(text);
  std::string line;
  append_screen_csv(line, book.screening(), book.result("S,1"));
  EXPECT_TRUE(line.starts_with("\"S,1\",\"a \"\"b\"\"\",valid,P1,480,")) << line;
}

TEST_F(ScreenCsv, SetsTheMeasuredVolumeBesideAConventionalOne) {
  JudgedBook by_mean(nominal_book());
  EXPECT_EQ(cell(by_mean, "S1", "volume_is"), "measured");
  EXPECT_EQ(cell(by_mean, "S1", "measured_volume_l"), cell(by_mean, "S1", "volume_l"));
  const std::string u = cell(by_mean, "S1", "volume_expanded_uncertainty_l");
  EXPECT_EQ(cell(by_mean, "S1", "measured_volume_expanded_uncertainty_l"), u);
  JudgedBook book(nominal_book(), {{}, {}, {practice("flow_for_volume", "nominal")}});
  EXPECT_EQ(cell(book, "S1", "volume_is"), "conventional");
  EXPECT_EQ(cell(book, "S1", "volume_l"), "816");
  EXPECT_EQ(cell(book, "S1", "volume_expanded_uncertainty_l"), "");
  EXPECT_EQ(cell(book, "S1", "measured_volume_l"), cell(by_mean, "S1", "volume_l"));
  EXPECT_EQ(cell(book, "S1", "measured_volume_expanded_uncertainty_l"), u);
}

}  // namespace
}  // namespace driftwarden::screen_csv_test

// SPDX-License-Identifier: MIT
#include "report/result_texts.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/laboratory_book.hpp"

namespace driftwarden::result_texts_test {
namespace {

// derived: less than 0.03 mg in 1.95 L/min x 455 min = 887.25 L, to the last binary digit.
const std::string results =
    "sample,analyte,amount [mg],limit [mg],expanded uncertainty [%],laboratory,reported,qualifier\n"
    "S1,\"dust, \"\"fine\"\"\",<0.03,,,Lab,2026-10-01,J\nB1,quartz,0.004,,,,,\n";

TEST(ResultTexts, AreOneRowAResultUnderTheirHeadings) {
  JudgedBook book(laboratory_book(results));
  std::string text = results_csv_headings(book.book());
  for (const std::string sample : {"S1", "B1", "B2"}) append_results_csv(text, book.screening(), book.result(sample));
  EXPECT_EQ(
      text,
      "sample,batch,kind,verdict,analyte,unit,found,found_expanded,limit,less_than,blanks,blank_mean,blank_sd,net,"
      "net_expanded,volume_l,volume_at,concentration,concentration_unit,concentration_expanded,"
      "concentration_by_measured_volume,concentration_by_nominal_flow,stands,laboratory,reported,qualifier,at\n"
      "S1,B,sample,valid,\"dust, "
      "\"\"fine\"\"\",mg,,,0.03,yes,0,,,,,887.2500000000001,actual,0.03381234150464919,mg/m3,,"
      "0.03381234150464919,,yes,Lab,2026-10-01,J,results.csv:2\n"
      "B1,B,blank,valid,quartz,mg,0.004,,,no,,,,,,,actual,,mg/m3,,,,no,,,,results.csv:3\n");
}

TEST(ResultTexts, StandUnderTheSameNamesInJson) {
  JudgedBook book(laboratory_book(results));
  std::string text;
  JsonText json(text);
  json.begin_object();
  results_member(json, book.screening(), book.result("S1"));
  json.end_object();
  EXPECT_EQ(
      text,
      R"({"results":[{"analyte":"dust, \"fine\"","unit":"mg","found":null,"found_expanded":null,"limit":0.03,)"
      R"("less_than":true,"blanks":0,"blank_mean":null,"blank_sd":null,"net":null,"net_expanded":null,)"
      R"("volume_l":887.2500000000001,"volume_at":"actual","concentration":0.03381234150464919,"concentration_unit":"mg/m3",)"
      R"("concentration_expanded":null,"concentration_by_measured_volume":0.03381234150464919,)"
      R"("concentration_by_nominal_flow":null,"stands":true,"laboratory":"Lab","reported":"2026-10-01",)"
      R"("qualifier":"J","at":"results.csv:2"}]})");
}

TEST(ResultTexts, HaveNoMemberWithoutAResult) {
  JudgedBook book{BookText()};
  std::string text;
  JsonText json(text);
  json.begin_object();
  results_member(json, book.screening(), book.result("S1"));
  json.end_object();
  EXPECT_EQ(text, "{}");
}

TEST(ResultTexts, OfAVoidSampleDoNotStand) {
  JudgedBook book(laboratory_book(), {{{Subject::result, "blank.count", "at_least", {"3"}}}});
  std::string text;
  append_results_csv(text, book.screening(), book.result("S1"));
  EXPECT_EQ(std::ranges::count(text, '\n'), 1);
  EXPECT_NE(text.find("S1,B,sample,void,"), std::string::npos);
  EXPECT_NE(text.find(",no,,,,results.csv:2\n"), std::string::npos) << text;
}

TEST(ResultTexts, OfAnUndecidedSampleDoNotStandAndOfAnUnreadRowSayNothing) {
  JudgedBook book(laboratory_book("sample,analyte,amount [mg],limit [mg]\nS1,dust,0.5,\nS1,lead,x,0.03\n"));
  std::string text;
  append_results_csv(text, book.screening(), book.result("S1"));
  EXPECT_NE(text.find(",dust,mg,0.5,,,no,"), std::string::npos) << text;
  EXPECT_NE(text.find(",lead,mg,,,0.03,,"), std::string::npos) << text;
  EXPECT_EQ(text.find(",yes,"), std::string::npos) << text;
}

TEST(ResultTexts, HaveTheWeighingRoomOnlyWhereTheBookHasOne) {
  JudgedBook book(weighing_book());
  EXPECT_TRUE(results_csv_headings(book.book())
                  .ends_with(",at,balance,weighed_before,weighed_after,certificate_before,certificate_after,"
                             "balance_overdue_d,controls,control_mean,control_sd\n"));
  std::string text;
  append_results_csv(text, book.screening(), book.result("S1"));
  // derived: control filters that gained 0.002 and 0.004 mg, and days since 2026-09-20 and 2027-09-20.
  EXPECT_NE(text.find(",results.csv:2,MB-2,2026-09-14,2026-09-28,M1,M2,-6,2,0.003,"), std::string::npos) << text;
  EXPECT_TRUE(results_csv_headings(JudgedBook(laboratory_book()).book()).ends_with(",at\n"));
}

}  // namespace
}  // namespace driftwarden::result_texts_test

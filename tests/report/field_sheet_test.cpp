// SPDX-License-Identifier: MIT
#include "report/field_sheet.hpp"

#include <gtest/gtest.h>

#include "report/field_sheet_book.hpp"

namespace driftwarden::field_sheet_test {
namespace {

TEST(FieldSheet, HasASideForEachPumpAndDay) {
  JudgedBook book(sheet_book(), sheet_rules);
  const FieldSheets sheets = sheets_of(book);
  ASSERT_EQ(sheets.sides.size(), 3U);
  EXPECT_EQ(sheets.sides[0].pump, "P1");
  EXPECT_EQ(sheets.sides[0].serial, "AB-1");
  EXPECT_EQ(sheets.sides[0].day, "2026-09-22");
  EXPECT_EQ(sheets.sides[0].samples.size(), 2U);
  EXPECT_EQ(sheets.sides[1].day, "2026-09-23");
  EXPECT_EQ(sheets.sides[2].pump, "P2");
  EXPECT_EQ(sheets.sides[0].pre_boxes, 4U);
  EXPECT_EQ(sheets.sides[0].warm_up_min, 15);
  ASSERT_EQ(sheets.blanks.size(), 1U);
  EXPECT_EQ(sheets.without_pump, std::vector<std::string>{"S6"});
}

// own input: 2 / sqrt(101.325 / 85 * 288.15 / 293.15) = 1.8476, and of 1.9 and 2.1 L/min 1.7553 and 1.9400; computed
// with Python 3.11 by tests/support/computed_corrections.py.
TEST(FieldSheet, TellsWhatARotameterShouldShow) {
  JudgedBook book(sheet_book(), sheet_rules);
  const SheetGuide guide = sheets_of(book).sides[0].guides.at(0);
  EXPECT_EQ(guide.calibrator, "V2");
  EXPECT_EQ(guide.serial, "R-9");
  EXPECT_EQ(guide.read_at, "read at the centre of the float");
  EXPECT_EQ(guide.flow, "2.000 L/min actual flow, 1.900 to 2.100");
  EXPECT_EQ(guide.samples, (std::vector<std::string>{"S2", "S3"}));
  EXPECT_EQ(guide.pressures, (std::vector<std::string>{"84 kPa", "85 kPa", "86 kPa"}));
  ASSERT_EQ(guide.rows.size(), 5U);
  EXPECT_EQ(guide.rows[2].temperature, "15 °C");
  EXPECT_EQ(guide.rows[2].at[1].nominal, "1.85");
  EXPECT_EQ(guide.rows[2].at[1].band, "1.76 to 1.94");  // inside the band: up to the next step, and down to it
  EXPECT_EQ(guide.rules,
            std::vector<std::string>{"within 5 % of the nominal flow, else qualified (own/pre.deviation)"});
  EXPECT_EQ(guide.notes,
            std::vector<std::string>{"Outside the points of its certificate: the nearest one's error is taken."});
}

TEST(FieldSheet, HasOneRowWhereTheAirDoesNotMatter) {
  JudgedBook book(sheet_book(), sheet_rules);
  const SheetGuide guide = sheets_of(book).sides[2].guides.at(0);
  EXPECT_EQ(guide.pressures, std::vector<std::string>{"any pressure"});
  ASSERT_EQ(guide.rows.size(), 1U);
  EXPECT_EQ(guide.rows[0].temperature, "any temperature");
  EXPECT_EQ(guide.rows[0].at[0].band, "1.900 to 2.100");
}

TEST(FieldSheet, TakesTheCalibratorsThatAreNamed) {
  JudgedBook book(sheet_book(), sheet_rules);
  const FieldSheets sheets = sheets_of(book, {2, 3});
  ASSERT_EQ(sheets.sides[0].guides.size(), 2U);
  EXPECT_EQ(sheets.sides[0].guides[1].rows.size(), 3U);  // there is less room
}

TEST(FieldSheet, SaysWhereTheCalibratorIsPastDueOrHasNoCertificate) {
  BookText text = sheet_book();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC2,V2,2025-01-05,2,2,2\n";
  JudgedBook book(text, sheet_rules);
  const FieldSheets sheets = sheets_of(book);
  EXPECT_EQ(sheets.sides[0].guides.at(0).notes[0], "Past due since 2026-01-05: do not use it before it is calibrated.");
  EXPECT_EQ(sheets.sides[2].guides.at(0).notes[0], "No certificate of it is in force: its error is not corrected.");
}

TEST(FieldSheet, HasABoxForEachReadingThatIsAskedForOrUsual) {
  RulesText rules = sheet_rules;
  rules.rules.push_back({Subject::sample, "post.count", "at_least", {"10"}});
  rules.rules.push_back({Subject::sample, "field.count", "at_least", {"9"}});
  BookText text = sheet_book();
  text.readings = "taken,stage,pump,calibrator,reading [L/min]\n";
  for (int i = 0; i < 5; ++i) text.readings += "2026-09-18T07:3" + std::to_string(i) + ",pre,P1,V1,2.000\n";
  JudgedBook book(text, rules);
  EXPECT_EQ(sheets_of(book).sides[0].pre_boxes, 5U) << "four are asked for";
  EXPECT_EQ(sheets_of(book).sides[0].post_boxes, 10U);
  EXPECT_EQ(sheets_of(book).sides[0].field_boxes, 9U);
  EXPECT_NE(field_sheets_page(sheets_of(book)).find("boxes between asked"), std::string::npos)
      << "however little room there is";
  JudgedBook unasked(text, sheet_rules);
  EXPECT_EQ(field_sheets_page(sheets_of(unasked)).find("boxes between asked"), std::string::npos);
}

TEST(FieldSheet, HasTheBoxesThatRulesAskForWhereNoCalibratorIsKnown) {
  BookText text = sheet_book();
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  text.plan = "sample,batch,pump,sampler,day\nS2,B1,P1,cowl,2026-09-22\n";
  JudgedBook book(text, sheet_rules);
  const FieldSheets sheets = sheets_of(book);
  EXPECT_EQ(sheets.sides.at(0).pre_boxes, 4U);
  EXPECT_EQ(sheets.sides[0].post_boxes, 3U);
  EXPECT_EQ(sheets.sides[0].warm_up_min, 15);
  EXPECT_TRUE(sheets.sides[0].guides.empty());
}

TEST(FieldSheet, AsksForALeakTestAndInterruptionsWhereARuleDoes) {
  JudgedBook book(sheet_book(), sheet_rules);
  const std::string page = field_sheets_page(sheets_of(book));
  EXPECT_EQ(page.find("leak test, with its unit"), std::string::npos);
  EXPECT_EQ(page.find("interruptions"), std::string::npos);
  RulesText rules = sheet_rules;
  rules.rules.push_back({Subject::sample, "leak", "less_than", {"80 mL/min"}});
  rules.rules.push_back({Subject::sample, "interruptions", "at_most", {"10"}});
  JudgedBook with_rules(sheet_book(), rules);
  const std::string asking = field_sheets_page(sheets_of(with_rules));
  EXPECT_NE(asking.find("leak test, with its unit"), std::string::npos);
  EXPECT_NE(asking.find("interruptions"), std::string::npos);
}

TEST(FieldSheet, AsksForPressureDropAndPulsationWhereTheBookHasThem) {
  BookText text = sheet_book();
  text.samples =
      "sample,batch,pump,started,stopped,pressure drop [kPa],pulsation [%]\n"
      "S0,B0,P1,2026-09-20T08:00,2026-09-20T16:00,1.2,8\n";
  JudgedBook book(text, sheet_rules);
  const std::string page = field_sheets_page(sheets_of(book));
  EXPECT_NE(page.find("pressure drop, with its unit"), std::string::npos);
  EXPECT_NE(page.find("pulsation, %"), std::string::npos);
  JudgedBook without(sheet_book(), sheet_rules);
  EXPECT_EQ(field_sheets_page(sheets_of(without)).find("pressure drop"), std::string::npos);
}

TEST(FieldSheet, SaysHowLongASampleHasToRunWhereATargetIsPlanned) {
  BookText text = sheet_book();
  text.plan =
      "sample,batch,pump,sampler,method,target [mg/m3],expected [mg/m3]\nS2,B1,P1,cowl,M,0.5,4\nS3,B1,P2,cowl,M,,\n";
  RulesText rules = sheet_rules;
  DescribedWord method{Selector::method, "M", "T", "S", {}, {}};
  method.facts.of(MassFactKind::quantification) = MassFact{0.1, "0.1 mg", "A source", Standing::read, "own", {}};
  method.facts.of(MassFactKind::loading) = MassFact{2, "2 mg", "A source", Standing::read, "own", {}};
  rules.words = {method};
  JudgedBook book(text, rules);
  const FieldSheets sheets = sheets_of(book);
  EXPECT_EQ(
      sheets.sides[0].samples[0].window,
      "at least 100 min (200 L), at most 250 min (500 L): 0.5 mg/m3 has to be found, 4 mg/m3 of dust is expected");
  EXPECT_EQ(sheets.sides[1].samples[0].window, "") << "nothing is planned for it";
  EXPECT_NE(field_sheets_page(sheets).find("<p class=\"window\">at least 100 min (200 L)"), std::string::npos);
}

TEST(FieldSheet, AsksForTheVacuumWhereARuleDoes) {
  JudgedBook book(sheet_book(), sheet_rules);
  EXPECT_FALSE(sheets_of(book).sides[0].asks_for_vacuum);
  RulesText rules = sheet_rules;
  rules.rules.push_back({Subject::sample, "vacuum", "more_than", {"17 inHg"}});
  JudgedBook with_rule(sheet_book(), rules);
  EXPECT_TRUE(sheets_of(with_rule).sides[0].asks_for_vacuum);
  EXPECT_NE(field_sheets_page(sheets_of(with_rule)).find("vacuum, with its unit"), std::string::npos);
}

// Whether a table of it can be made or not.
TEST(FieldSheet, SaysWhatSpeaksAgainstThePumpAndACalibratorWithoutATable) {
  BookText text = sheet_book();
  text.instruments =
      "instrument,kind,principle,interval [d],out of service\nP1,pump,,,2026-09-20\nP2,pump,,,\n"
      "V1,calibrator,volumetric,100,\nV2,calibrator,volumetric,365,\n";
  text.plan = "sample,batch,pump,calibrator,day\nS2,B1,P1,V1,2026-09-22\nS3,B1,P1,V1,2026-09-22\n";
  JudgedBook book(text, sheet_rules);
  const FieldSheets sheets = sheets_of(book);
  EXPECT_EQ(sheets.sides.at(0).notes,
            (std::vector<std::string>{"Out of service since 2026-09-20: do not use it.",
                                      "V1: Past due since 2026-04-15: do not use it before it is calibrated."}));
  EXPECT_NE(field_sheets_page(sheets).find("<b><bdi>Out of service since 2026-09-20: do not use it.</bdi></b>"),
            std::string::npos);
}

TEST(FieldSheet, NamesWhatIsLeftOut) {
  BookText text = sheet_book();
  text.plan += "S1,B1,,P1,cowl,V1,2026-09-22,\n";
  JudgedBook book(text, sheet_rules);
  const FieldSheets sheets = sheets_of(book);
  EXPECT_EQ(sheets.left_out,
            std::vector<std::string>{"S1, whose name stands in samples.csv:2 already, without a batch"});
  EXPECT_NE(field_sheets_page(sheets).find("Left out: <bdi>S1, whose name stands"), std::string::npos);
}

TEST(FieldSheet, WritesDurationsAsOneWould) {
  EXPECT_EQ(duration_text(15), "15 min");
  EXPECT_EQ(duration_text(90), "90 min");
  EXPECT_EQ(duration_text(120), "2 h");
  EXPECT_EQ(duration_text(1440), "24 h");
}

}  // namespace
}  // namespace driftwarden::field_sheet_test

// SPDX-License-Identifier: MIT
#include "report/field_form.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/field_sheet_book.hpp"
#include "report/html_text.hpp"
#include "report/page_style.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::field_form_test {
namespace {

// input: the book of the field sheets. How a form is typed in: tests/browser/form_test.sh.

FormAsked asked_of(JudgedBook& book) {
  return {"B1", samples_ahead(book.screening(), "B1"), {288.15, 85, 0.4}, {2, 3}, 20717};
}

nlohmann::json data_of(const std::string& page) {
  const std::string begin = "<script type=\"application/json\" id=\"data\">";
  const std::size_t from = page.find(begin) + begin.size();
  return nlohmann::json::parse(page.substr(from, page.find("</script>", from) - from));
}

TEST(FieldForm, HoldsTheSamplesOfTheBatchAndTheBooksHeadings) {
  BookText text = sheet_book();
  text.settings += "[headings.readings]\n\"Clock\" = \"taken\"\n\"Flow\" = \"reading [mL/min]\"\n";
  JudgedBook book(text, sheet_rules);
  const nlohmann::json data = data_of(field_form(book.screening(), asked_of(book), "1"));
  EXPECT_EQ(data["batch"], "B1");
  ASSERT_EQ(data["samples_of"].size(), 6U);
  EXPECT_EQ(data["samples_of"][0]["sample"], "S2");
  EXPECT_EQ(data["samples_of"][0]["serial"], "AB-1");
  EXPECT_EQ(data["samples_of"][0]["pre_boxes"], 4);
  EXPECT_EQ(data["samples_of"][0]["warm_up"], 15);
  EXPECT_EQ(data["samples_of"][5]["pre_boxes"], 0);
  EXPECT_EQ(data["readings_headings"]["taken"], "Clock");
  EXPECT_EQ(data["readings_headings"]["reading"], "reading [L/min]");  // theirs is in another unit
  EXPECT_EQ(data["samples_headings"]["paused"], "paused [min]");
}

// What is typed must be read in the book as it was meant.
TEST(FieldForm, WritesRowsAsTheFilesAreKeptThatTheyWillStandIn) {
  BookText text = sheet_book();
  text.settings += "[files.\"readings/received-*\"]\ndecimal = \",\"\ntime_zone = \"MST7MDT,M3.2.0,M11.1.0\"\n";
  JudgedBook book(text, sheet_rules);
  const std::string page = field_form(book.screening(), asked_of(book), "1");
  const nlohmann::json data = data_of(page);
  EXPECT_EQ(data["decimals"]["samples"], ".");
  EXPECT_EQ(data["decimals"]["readings"], ",");
  EXPECT_NE(page.find("Times as the clock shows them in UTC, those of readings in MST7MDT,M3.2.0,M11.1.0."),
            std::string::npos);
  EXPECT_TRUE(data["clock_changes"]["samples"].empty());
  // check value, derived: the rule's second Sunday of March and first of November, at 02:00 (POSIX TZ)
  const nlohmann::json& changes = data["clock_changes"]["readings"];
  ASSERT_EQ(changes.size(), 4U);
  EXPECT_EQ(changes[1], (nlohmann::json{{"from", "2026-03-08T02:00"}, {"to", "2026-03-08T03:00"}}));
  EXPECT_EQ(changes[2],
            (nlohmann::json{
                {"from", "2026-11-01T01:00"}, {"to", "2026-11-01T02:00"}, {"first", "-06:00"}, {"second", "-07:00"}}));
}

TEST(FieldForm, KnowsWhatTheBookTakesAndWhatRulesAskFor) {
  JudgedBook book(sheet_book(), sheet_rules);
  const nlohmann::json data = data_of(field_form(book.screening(), asked_of(book), "1"));
  EXPECT_EQ(data["limits"]["readings"]["pressure"], (nlohmann::json{10, 200}));
  EXPECT_EQ(data["limits"]["samples"]["temperature"], (nlohmann::json{-93.15, 126.85}));
  EXPECT_EQ(data["limits"]["readings"]["humidity"], (nlohmann::json{0, 100}));
  EXPECT_EQ(data["samples_of"][0]["vacuum"], false);
  EXPECT_EQ(data["samples_of"][0]["field_boxes"], 3);
  EXPECT_EQ(data["samples_of"][5]["field_boxes"], 0);
  RulesText rules = sheet_rules;
  rules.rules.push_back({Subject::sample, "vacuum", "more_than", {"17 inHg"}});
  JudgedBook asking(sheet_book(), rules);
  const nlohmann::json asked = data_of(field_form(asking.screening(), asked_of(asking), "1"));
  EXPECT_EQ(asked["samples_of"][0]["vacuum"], true);
  EXPECT_EQ(asked["samples_of"][5]["vacuum"], false);
  EXPECT_EQ(asked["samples_of"][0]["leak"], false);
  RulesText tested = sheet_rules;
  tested.rules.push_back({Subject::sample, "leak", "less_than", {"80 mL/min"}});
  tested.rules.push_back({Subject::sample, "interruptions", "at_most", {"10"}});
  JudgedBook testing(sheet_book(), tested);
  const nlohmann::json both = data_of(field_form(testing.screening(), asked_of(testing), "1"));
  EXPECT_EQ(both["samples_of"][0]["leak"], true);
  EXPECT_EQ(both["samples_of"][0]["interruptions"], true);
  EXPECT_EQ(both["samples_of"][5]["leak"], false);
  EXPECT_EQ(both["limits"]["samples"]["interruptions"], (nlohmann::json{0, 100000}));
}

TEST(FieldForm, AsksForPressureDropAndPulsationWhereTheBookHasThem) {
  BookText text = sheet_book();
  text.samples =
      "sample,batch,pump,started,stopped,pressure drop [kPa],pulsation [%]\n"
      "S0,B0,P1,2026-09-20T08:00,2026-09-20T16:00,1.2,8\n";
  JudgedBook book(text, sheet_rules);
  const nlohmann::json data = data_of(field_form(book.screening(), asked_of(book), "1"));
  EXPECT_EQ(data["samples_of"][0]["pressure drop"], true);
  EXPECT_EQ(data["samples_of"][0]["pulsation"], true);
  EXPECT_EQ(data["limits"]["samples"]["pulsation"], (nlohmann::json{0, 1000}));
  JudgedBook without(sheet_book(), sheet_rules);
  EXPECT_FALSE(data_of(field_form(without.screening(), asked_of(without), "1"))["samples_of"][0].contains("pulsation"));
}

// From the same place as on the sheet.
TEST(FieldForm, SaysBeforehandWhatIsLeftOutAndWhatSpeaksAgainstAnInstrument) {
  BookText text = sheet_book();
  text.instruments =
      "instrument,kind,principle,interval [d],out of service\nP1,pump,,,2026-09-20\nP2,pump,,,\n"
      "V1,calibrator,volumetric,100,\nV2,calibrator,volumetric,365,\n";
  text.plan += "S1,B1,,P1,cowl,V1,2026-09-22,\n";
  JudgedBook book(text, sheet_rules);
  const std::string page = field_form(book.screening(), asked_of(book), "1");
  for (const char* said :
       {"Left out: S1, whose name stands in samples.csv:2 already, without a batch: give it another name",
        "P1: Out of service since 2026-09-20: do not use it.",
        "V1: Past due since 2026-04-15: do not use it before it is calibrated."})
    EXPECT_NE(page.find("<p class=\"told amiss\"><bdi>" + std::string(said)), std::string::npos) << said;
  EXPECT_EQ(data_of(page)["calibrators"][0]["notes"][0],
            "Past due since 2026-04-15: do not use it before it is calibrated.");
  EXPECT_TRUE(data_of(page)["calibrators"][1]["notes"].empty());
  JudgedBook sound(sheet_book(), sheet_rules);
  EXPECT_EQ(field_form(sound.screening(), asked_of(sound), "1").find("told amiss\"><bdi>"), std::string::npos);
}

// What a form looks up is what a sheet tells of the same air.
TEST(FieldForm, HasTheFiguresOfTheSheet) {
  JudgedBook book(sheet_book(), sheet_rules);
  const nlohmann::json data = data_of(field_form(book.screening(), asked_of(book), "1"));
  const nlohmann::json& air = data["air"];
  const nlohmann::json& guide = data["guides"][data["samples_of"][0]["guide"]["V2"].get<std::string>()];
  const CalibratorDisplay display(book.screening(), 3, 20717);
  const FlowBand band{1.9, 2.1, true};
  ASSERT_EQ(guide["shown"].size(), 3 * air["celsius_count"].get<std::size_t>() * air["kpa_count"].get<std::size_t>());
  for (const auto& [celsius, kpa] :
       {std::pair{15.0, 85.0}, std::pair{-5.0, 80.0}, std::pair{35.0, 90.0}, std::pair{7.0, 83.25}}) {
    const auto t = static_cast<std::size_t>(celsius - air["celsius"].get<double>());
    const auto p = static_cast<std::size_t>((kpa - air["kpa"].get<double>()) / 0.25);
    const std::size_t at = 3 * (t * air["kpa_count"].get<std::size_t>() + p);
    const DisplayBand shown = display.should_show(2.0, band, {celsius + 273.15, kpa, 0.4});
    EXPECT_NEAR(guide["shown"][at].get<double>() * 0.01, shown.nominal, 1e-9);
    EXPECT_NEAR(guide["shown"][at + 1].get<double>() * 0.01, shown.low, 1e-9);
    EXPECT_NEAR(guide["shown"][at + 2].get<double>() * 0.01, shown.high, 1e-9);
  }
  const nlohmann::json& piston = data["guides"][data["samples_of"][0]["guide"]["V1"].get<std::string>()];
  EXPECT_EQ(piston["shown"], (nlohmann::json{2000, 1900, 2100}));
  EXPECT_EQ(piston["rules"][0], "within 5 % of the nominal flow, else qualified (own/pre.deviation)");
}

TEST(FieldForm, LetsNothingComeFromAnywhereAndHasHostileNamesAsText) {
  JudgedBook book(sheet_book(), sheet_rules);
  const std::string page = field_form(book.screening(), asked_of(book), "1");
  EXPECT_NE(page.find("default-src &#39;none&#39;"), std::string::npos);
  EXPECT_NE(page.find(html_of(policy_hash(form_js()))), std::string::npos);
  EXPECT_EQ(page.find("<i>S5"), std::string::npos);
  EXPECT_EQ(data_of(page)["samples_of"][3]["sample"], "<i>S5");
  EXPECT_NE(page.find(html_of(cautions)), std::string::npos);
}

TEST(FieldForm, IsNamedByItsBatchItsDayAndWhatIsInIt) {
  JudgedBook book(sheet_book(), sheet_rules);
  FormAsked asked = asked_of(book);
  const auto name_of = [&] {
    const std::string page = field_form(book.screening(), asked, "1");
    const std::size_t from = page.find("<span id=\"form-name\"><bdi>") + 26;
    return page.substr(from, page.find('<', from) - from);
  };
  const std::string name = name_of();
  EXPECT_TRUE(name.starts_with("B1/2026-09-21/")) << name;
  EXPECT_EQ(name_of(), name);
  asked.ahead.samples.pop_back();
  EXPECT_NE(name_of(), name);
}

TEST(FieldForm, OffersCalibratorsInServiceWithACertificate) {
  BookText text = sheet_book();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC2,V2,2026-01-05,2,2,2\n";
  JudgedBook book(text, sheet_rules);
  EXPECT_EQ(calibrators_in_use(book.screening(), 20717), std::vector<Row>{3});
}

}  // namespace
}  // namespace driftwarden::field_form_test

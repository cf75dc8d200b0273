// SPDX-License-Identifier: MIT
#include "report/screen_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/book_text.hpp"

namespace driftwarden::screen_json_test {
namespace {

// derived: 2.00 and 2.02 are 2.01 L/min with s = 0.02/√2; with 1.90 after, 1.955 in the mean; ideal gas, 40 CFR 50
// Appendix J, section 11.1, 2015 edition.

using nlohmann::json;

std::string text_of(JudgedBook& book) {
  std::string out;
  append_screen_json_head(out, book.screening(), {"0.1.0", day_from({2026, 11, 16})});
  Totals totals;
  for (Row row = 0; row < book.book().samples.size(); ++row) {
    const SampleResult& result = book.result(book.book().samples.name[row]);
    totals.count(result.verdict, result.standing);
    append_screen_json(out, book.screening(), result, row == 0);
  }
  append_screen_json_tail(out, book.screening(), totals, {});
  return out;
}

json document(const BookText& text, const RulesText& rules = {}) {
  JudgedBook book(text, rules);
  return json::parse(text_of(book));
}

json first_sample(const BookText& text, const RulesText& rules = {}) { return document(text, rules)["samples"][0]; }

// Every field filled.
BookText full() {
  BookText text;
  text.samples =
      "sample,batch,pump,sampler,nominal [L/min],method,analysis,started,stopped,temperature [°C],pressure [kPa]\n"
      "S1,B-7,P1,cowl,2.0,method 12,fume,2026-09-21T08:00,2026-09-21T16:00,20,100\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa],void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.00,18,99,,\n"
      "2026-09-21T07:31,pre,S1,V1,2.02,18,99,,\n"
      "2026-09-21T07:32,pre,S1,V1,9.00,18,99,yes,knocked\n"
      "2026-09-21T16:10,post,S1,V2,1.90,22,101,,\n";
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n"
      "2026-09-22T10:00,site hygienist,S1,own/drift,uphold,first look\n"
      "2026-09-23T10:00,site hygienist,S1,own/drift,overrule,the pump was checked\n"
      "2026-09-24T10:00,site hygienist,S9,own/drift,uphold,another sample\n";
  return text;
}

RulesText drift_within(const std::string& limit) { return {{{Subject::sample, "drift", "within", {limit}}}}; }

TEST(ScreenJson, BeginsWithToolBookDayAndReference) {
  const json all = document(full());
  EXPECT_EQ(all["tool"], (json{{"name", "driftwarden"}, {"version", "0.1.0"}}));
  EXPECT_EQ(all["book"], (json{{"title", "Quarry"}}));
  EXPECT_EQ(all["as_of"], "2026-11-16");
  EXPECT_EQ(all["reference"]["temperature_c"], 25);
  EXPECT_EQ(all["reference"]["pressure_kpa"], 101.325);
}

TEST(ScreenJson, GivesATemperatureAsItWasWritten) {
  BookText text = full();
  text.samples.replace(text.samples.find(",20,100"), 7, ",15.1,100");
  EXPECT_EQ(first_sample(text)["conditions"]["temperature_c"].get<double>(), 15.1);
}

TEST(ScreenJson, NamesEveryRuleInForceWithItsLimit) {
  const json rules = document(full(), drift_within("5 %"))["rules"];
  ASSERT_EQ(rules.size(), 1U);
  EXPECT_EQ(rules[0]["id"], "drift");
  EXPECT_EQ(rules[0]["pack"], "own");
  EXPECT_EQ(rules[0]["edition"], "1");
  EXPECT_EQ(rules[0]["limit"], "within 5 %");
  EXPECT_TRUE(rules[0]["overridden"].is_null());
}

TEST(ScreenJson, TellsWhatABookOverrides) {
  const Book book = book_of(full());
  RuleSet rules = drift_within("10 %").rule_set();
  rules.rules[0].overridden = {"within 5 %", "void", "The client's.", {"book.toml", 7, 1}};
  const Screening screening(book, rules);
  std::string out;
  append_screen_json_head(out, screening, {"0.1.0", 0});
  append_screen_json_tail(out, screening, {}, {});
  EXPECT_EQ(json::parse(out)["rules"][0]["overridden"],
            (json{{"limit_before", "within 5 %"}, {"reason", "The client's."}, {"at", "book.toml:7:1"}}));
}

TEST(ScreenJson, HasTheFieldsOfTheCsvUnderTheSameNames) {
  const json s1 = first_sample(full());
  EXPECT_EQ(s1["sample"], "S1");
  EXPECT_EQ(s1["batch"], "B-7");
  EXPECT_EQ(s1["verdict"], "valid");
  EXPECT_EQ(s1["pump"], "P1");
  EXPECT_EQ(s1["minutes"], 480);
  EXPECT_EQ(s1["pre_n"], 2);
  EXPECT_NEAR(s1["pre_l_min"], 2.01, 1e-12);
  EXPECT_NEAR(s1["pre_sd_l_min"], 0.0141421356, 1e-9);
  EXPECT_EQ(s1["post_n"], 1);
  EXPECT_EQ(s1["post_l_min"], 1.9);
  EXPECT_TRUE(s1["post_sd_l_min"].is_null());
  EXPECT_NEAR(s1["drift_percent"], 100 * (1.90 - 2.01) / 2.01, 1e-9);
  EXPECT_NEAR(s1["flow_l_min"], 1.955, 1e-12);
  EXPECT_NEAR(s1["volume_l"], 480 * 1.955, 1e-9);
  EXPECT_NEAR(s1["volume_reference_l"], 480 * 1.955 * (100 / 101.325) * (298.15 / 293.15), 1e-9);
  EXPECT_TRUE(s1.contains("volume_expanded_uncertainty_l"));
}

TEST(ScreenJson, TellsHowTheFlowWentAndWhatIsKnownInBetween) {
  EXPECT_TRUE(first_sample(full())["course"].is_null());
  BookText text = sagging_book();
  std::string out;
  JudgedBook book(text);
  append_screen_json(out, book.screening(), book.result("S1"), true);
  const json s1 = json::parse(out);
  EXPECT_NEAR(s1["course"]["mean_l_min"], 1.9, 1e-12);
  ASSERT_EQ(s1["course"]["stops"].size(), 3U);
  EXPECT_EQ(s1["course"]["stops"][1]["after_min"], 240);
  EXPECT_NEAR(s1["course"]["stops"][1]["share"], 0.5, 1e-12);
  EXPECT_EQ(s1["budget"]["flow_between"]["from"], "stated");
  EXPECT_EQ(s1["budget"]["flow_between"]["earlier_uses"], 0);
  EXPECT_TRUE(s1["budget"]["flow_between"]["drift_s_percent"].is_null());
}

TEST(ScreenJson, SetsWhatWasMeasuredBesideAConventionalVolume) {
  JudgedBook book(nominal_book(), {{}, {}, {practice("flow_for_volume", "nominal")}});
  std::string out;
  append_screen_json(out, book.screening(), book.result("S1"), true);
  const json s1 = json::parse(out);
  EXPECT_EQ(s1["volume_is"], "conventional");
  EXPECT_TRUE(s1["volume_expanded_uncertainty_l"].is_null());
  EXPECT_NEAR(s1["measured"]["volume_l"], 948, 1e-9);
  EXPECT_GT(s1["measured"]["volume_expanded_uncertainty_l"], 1);
}

TEST(ScreenJson, TellsWhatTheSampleWas) {
  const json s1 = first_sample(full());
  EXPECT_EQ(s1["kind"], "sample");
  EXPECT_EQ(s1["started"], "2026-09-21T08:00+00:00");
  EXPECT_EQ(s1["stopped"], "2026-09-21T16:00+00:00");
  EXPECT_EQ(s1["sampler"], "cowl");
  EXPECT_EQ(s1["method"], "method 12");
  EXPECT_EQ(s1["analysis"], "fume");
  EXPECT_EQ(s1["nominal_l_min"], 2);
  EXPECT_EQ(s1["at"], "samples.csv:2");
  EXPECT_EQ(s1["conditions"]["temperature_from"], "sample");
  EXPECT_EQ(s1["conditions"]["pressure_from"], "sample");
  EXPECT_EQ(s1["conditions"]["pressure_kpa"], 100);
}

TEST(ScreenJson, TellsOfEachSetWhatItLeansOn) {
  const json s1 = first_sample(full());
  const json pre = s1["pre"];
  EXPECT_EQ(pre["n"], 2);
  EXPECT_EQ(pre["voided"], 1);
  EXPECT_NEAR(pre["mean_l_min"], 2.01, 1e-12);
  EXPECT_NEAR(pre["range_l_min"], 0.02, 1e-12);
  EXPECT_NEAR(pre["rsd_percent"], 100 * 0.0141421356 / 2.01, 1e-7);
  EXPECT_EQ(pre["pressure_kpa"], 99);
  EXPECT_EQ(pre["first"], "2026-09-21T07:30+00:00");
  EXPECT_EQ(pre["last"], "2026-09-21T07:32+00:00");
  EXPECT_EQ(pre["calibrator"], "V1");
  EXPECT_EQ(pre["certificate"], "C1");
  EXPECT_EQ(pre["at"], (json{"readings.csv:2", "readings.csv:3", "readings.csv:4"}));
  EXPECT_EQ(s1["post"]["calibrator"], "V2");
  EXPECT_EQ(s1["post"]["at"], json::array({"readings.csv:5"}));
}

TEST(ScreenJson, TellsEveryFindingWithFigureLimitMarginAndPlaces) {
  const json s1 = first_sample(full(), drift_within("5 %"));
  ASSERT_EQ(s1["findings"].size(), 1U);
  const json finding = s1["findings"][0];
  EXPECT_EQ(finding["rule"], "own/drift");
  EXPECT_EQ(finding["outcome"], "void");
  EXPECT_EQ(finding["measure"], "drift");
  EXPECT_NEAR(finding["value"], 100 * (1.90 - 2.01) / 2.01, 1e-9);
  EXPECT_EQ(finding["unit"], "%");
  EXPECT_EQ(finding["limit"], "within 5 %");
  EXPECT_NEAR(finding["margin"], 5 + 100 * (1.90 - 2.01) / 2.01, 1e-9);
  EXPECT_EQ(finding["source"], "A source");
  EXPECT_EQ(finding["message"],
            "The flow fell 5.5 %, from 2.010 L/min before sampling to 1.900 L/min after; the limit is 5 %");
  EXPECT_EQ(finding["at"], (json{"readings.csv:2", "readings.csv:3", "readings.csv:4", "readings.csv:5"}));
}

TEST(ScreenJson, TellsTheNewestDecisionAboutASample) {
  const json decision = first_sample(full())["decision"];
  EXPECT_EQ(decision["ruling"], "overrule");
  EXPECT_EQ(decision["by"], "site hygienist");
  EXPECT_EQ(decision["decided"], "2026-09-23T10:00+00:00");
  EXPECT_EQ(decision["rule"], "own/drift");
  EXPECT_EQ(decision["reason"], "the pump was checked");
  EXPECT_EQ(decision["at"], "decisions.csv:3");
  EXPECT_TRUE(first_sample(BookText())["decision"].is_null());
}

TEST(ScreenJson, HasNullWhereNothingIsKnown) {
  BookText text;
  text.samples = "sample,kind,pump,started,stopped\nB1,blank,,,\nS2,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const json all = document(text);
  const json blank = all["samples"][0];
  for (const char* field : {"batch",   "pump",          "minutes",    "pre_n",    "pre_l_min",          "pre_sd_l_min",
                            "post_n",  "drift_percent", "flow_l_min", "volume_l", "volume_reference_l", "started",
                            "stopped", "sampler",       "method",     "analysis", "nominal_l_min",      "pre",
                            "post",    "decision"}) {
    EXPECT_TRUE(blank[field].is_null()) << field << " is " << blank[field];
  }
  EXPECT_EQ(blank["kind"], "blank");
  EXPECT_EQ(all["samples"][1]["pre_n"], 0);
  EXPECT_EQ(all["samples"][1]["conditions"]["pressure_from"], "nowhere");
}

TEST(ScreenJson, NamesFaultyRecordsAndListsEveryProblem) {
  BookText text;
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n";
  const json all = document(text, drift_within("5 %"));
  const json finding = all["samples"][0]["findings"][0];
  EXPECT_EQ(finding["rule"], "book/faulty-records");
  EXPECT_EQ(finding["outcome"], "undecided");
  for (const char* field : {"measure", "value", "unit", "limit", "margin", "probability_beyond", "source"}) {
    EXPECT_TRUE(finding[field].is_null()) << field;
  }
  EXPECT_EQ(finding["at"], json::array({"readings.csv:4:29"}));
  ASSERT_EQ(all["problems"].size(), 1U);
  const json problem = all["problems"][0];
  EXPECT_EQ(problem["file"], "readings.csv");
  EXPECT_EQ(problem["line"], 4);
  EXPECT_EQ(problem["column"], 29);
  EXPECT_EQ(problem["severity"], "error");
  EXPECT_EQ(problem["id"], "cell/not-a-number");
  EXPECT_EQ(problem["message"], "'1.9S' is not a number");
}

TEST(ScreenJson, AddsUpTheVerdicts) {
  BookText text;
  text.samples += "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  const json totals = document(text, drift_within("2 %"))["totals"];
  EXPECT_EQ(totals, (json{{"samples", 2},
                          {"valid", 0},
                          {"qualified", 0},
                          {"undecided", 1},
                          {"void", 1},
                          {"by_decision", {{"valid", 0}, {"qualified", 0}, {"undecided", 0}}}}));
}

TEST(ScreenJson, TellsTheRulingOnAFindingAndHowTheSampleStandsByIt) {
  const json all = document(full(), drift_within("5 %"));
  const json s1 = all["samples"][0];
  EXPECT_EQ(s1["verdict"], "void");
  EXPECT_EQ(s1["by_decision"], "valid");
  EXPECT_EQ(s1["findings"][0]["decision"], s1["decision"]);
  EXPECT_EQ(all["totals"]["void"], 1);
  EXPECT_EQ(all["totals"]["by_decision"]["valid"], 1);
  BookText undecided_on = full();
  undecided_on.decisions = "decided,by,subject,rule,ruling,reason\n";
  const json without = first_sample(undecided_on, drift_within("5 %"));
  EXPECT_TRUE(without["by_decision"].is_null());
  EXPECT_TRUE(without["findings"][0]["decision"].is_null());
}

TEST(ScreenJson, OfNoSamplesIsAWholeDocument) {
  BookText text;
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  EXPECT_TRUE(document(text)["samples"].empty());
}

TEST(ScreenJson, HasSubjectsWithTheirFindings) {
  JudgedBook book(BookText(), {{{Subject::batch, "blanks", "at_least", {"1"}}}});
  SubjectResult batch;
  batch.of = Subject::batch;
  batch.name = "B-7";
  batch.verdict = Verdict::qualified;
  batch.findings.push_back({{0, {Outcome::qualified, 0, 1, -1}, no_row, missing}, 6, "6 samples and blanks", "B-7"});
  std::string out;
  append_screen_json_head(out, book.screening(), {"0.1.0", 0});
  append_screen_json_tail(out, book.screening(), {}, {batch});
  const json subjects = json::parse(out)["subjects"];
  ASSERT_EQ(subjects.size(), 1U);
  EXPECT_EQ(subjects[0]["of"], "batch");
  EXPECT_EQ(subjects[0]["name"], "B-7");
  EXPECT_EQ(subjects[0]["verdict"], "qualified");
  EXPECT_EQ(subjects[0]["findings"][0]["rule"], "own/blanks");
  EXPECT_EQ(subjects[0]["findings"][0]["margin"], -1);
  EXPECT_EQ(subjects[0]["findings"][0]["n"], 6);
  EXPECT_EQ(subjects[0]["findings"][0]["rests_on"], "6 samples and blanks");
}

TEST(ScreenJson, SurvivesNamesOfAnyBytes) {
  BookText text;
  text.settings = "title = 'A \"quoted\\ title'\ntime_zone = \"UTC\"\n";
  text.samples = "sample,batch,pump,started,stopped\n\"S\"\"\n\xFF\",b\\b,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const json all = document(text);
  EXPECT_EQ(all["book"]["title"], "A \"quoted\\ title");
  EXPECT_EQ(all["samples"][0]["sample"], "S\"\n\xEF\xBF\xBD");
  EXPECT_EQ(all["samples"][0]["batch"], "b\\b");
}

}  // namespace
}  // namespace driftwarden::screen_json_test

// SPDX-License-Identifier: MIT
#include "report/screen_sarif.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/book_text.hpp"

namespace driftwarden::screen_sarif_test {
namespace {

using json = nlohmann::json;

RulesText drift_limit(const std::string& limit, Otherwise otherwise = Otherwise::void_) {
  return {{{Subject::sample, "drift", "within", {limit}, otherwise}}};
}

json log_of(const BookText& text, const RulesText& rules) {
  JudgedBook book(text, rules);
  std::string results;
  for (const Diagnostic& problem : book.book().problems) append_sarif(results, problem);
  for (const std::string_view sample : book.book().samples.name)
    append_sarif(results, book.screening(), book.result(sample));
  if (!results.empty()) results.erase(0, 1);  // the first comma
  return json::parse(sarif_head(book.screening(), "0.1.0") + results + sarif_tail());
}

json first_result(const BookText& text, const RulesText& rules) { return log_of(text, rules)["runs"][0]["results"][0]; }

// Clauses 3.13 (log), 3.14 (run), 3.18 and 3.19 (tool and its driver), 3.49 (rules).
TEST(ScreenSarif, IsALogOfOneRunWithItsRules) {
  const json log = log_of(BookText(), drift_limit("5 %"));
  EXPECT_EQ(log["version"], "2.1.0");
  ASSERT_EQ(log["runs"].size(), 1U);
  const json driver = log["runs"][0]["tool"]["driver"];
  EXPECT_EQ(driver["name"], "driftwarden");
  EXPECT_EQ(driver["rules"][0]["id"], "own/drift");
  EXPECT_EQ(driver["rules"][0]["shortDescription"]["text"], "drift within 5 %");
  EXPECT_EQ(driver["rules"][0]["help"]["text"], "Source: A source");
  EXPECT_EQ(driver["rules"][0]["defaultConfiguration"]["level"], "error");
  EXPECT_EQ(driver["rules"].back()["id"], "book/faulty-records");
  EXPECT_TRUE(log["runs"][0]["originalUriBaseIds"].contains("BOOK"));
  EXPECT_EQ(log["runs"][0]["results"], json::array());
}

TEST(ScreenSarif, TellsAFindingWithItsRuleItsSampleAndItsPlaces) {
  const json result = first_result(BookText(), drift_limit("2 %"));
  EXPECT_EQ(result["ruleId"], "own/drift");
  EXPECT_EQ(result["ruleIndex"], 0);
  EXPECT_EQ(result["level"], "error");
  EXPECT_EQ(result["message"]["text"],
            "S1: The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 2 %");
  const json location = result["locations"][0];
  EXPECT_EQ(location["physicalLocation"]["artifactLocation"]["uri"], "readings.csv");
  EXPECT_EQ(location["physicalLocation"]["artifactLocation"]["uriBaseId"], "BOOK");
  EXPECT_EQ(location["physicalLocation"]["region"]["startLine"], 2);
  EXPECT_EQ(location["logicalLocations"][0]["name"], "S1");
  EXPECT_EQ(result["relatedLocations"][0]["physicalLocation"]["region"]["startLine"], 3);
  EXPECT_FALSE(result.contains("suppressions"));
}

TEST(ScreenSarif, HasALevelForEachOutcome) {
  EXPECT_EQ(first_result(BookText(), drift_limit("2 %", Otherwise::qualify))["level"], "warning");
  EXPECT_EQ(first_result(BookText(), drift_limit("2 %", Otherwise::note))["level"], "note");
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  EXPECT_EQ(first_result(text, drift_limit("2 %"))["level"], "warning");  // undecided
}

TEST(ScreenSarif, SuppressesWhatWasOverruledAndSaysWhoAndWhy) {
  BookText text;
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S1,own/drift,overrule,looked at\n";
  const json suppression = first_result(text, drift_limit("2 %"))["suppressions"][0];
  EXPECT_EQ(suppression["kind"], "external");
  EXPECT_EQ(suppression["status"], "accepted");
  EXPECT_EQ(suppression["justification"],
            "overruled by site hygienist, 2026-09-22T10:00+00:00: looked at [decisions.csv:2]");
}

TEST(ScreenSarif, TellsFaultsOfTheRecordsWithLineAndColumn) {
  BookText text;
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n";
  const json results = log_of(text, drift_limit("5 %"))["runs"][0]["results"];
  ASSERT_EQ(results.size(), 2U);
  EXPECT_EQ(results[0]["ruleId"], "cell/not-a-number");
  EXPECT_EQ(results[0]["level"], "error");
  const json region = results[0]["locations"][0]["physicalLocation"]["region"];
  EXPECT_EQ(region, (json{{"startLine", 4}, {"startColumn", 29}}));
  EXPECT_EQ(results[1]["ruleId"], "book/faulty-records");
  EXPECT_EQ(results[1]["ruleIndex"], 1);
}

TEST(ScreenSarif, WritesFilesAsUrisAndMessagesWithoutPlaceholdersOrLinks) {
  std::string text = "[";
  append_sarif(text, remark("heading/unknown", {"readings/März [1].csv", 0, 0}, "columns {0} [a](b)"));
  text.erase(1, 1);
  const json result = json::parse(text + "]")[0];
  EXPECT_EQ(result["level"], "note");
  EXPECT_EQ(result["message"]["text"], "columns {{0}} \\[a\\](b)");
  const json location = result["locations"][0]["physicalLocation"];
  EXPECT_EQ(location["artifactLocation"]["uri"], "readings/M%C3%A4rz%20%5B1%5D.csv");
  EXPECT_FALSE(location.contains("region"));
}

}  // namespace
}  // namespace driftwarden::screen_sarif_test

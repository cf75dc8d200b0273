// SPDX-License-Identifier: MIT
#include "report/history_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/book_text.hpp"

namespace driftwarden::history_json_test {
namespace {

using nlohmann::json;

constexpr Day in_october = 20742;  // 2026-10-16

// Limits from as few points as there are.
json written(const BookText& text, ChartChoices choices = {}) {
  choices.fewest = 2;
  const JudgedBook book(text);
  std::vector<Row> all;
  for (Row row = 0; row < book.book().instruments.size(); ++row) all.push_back(row);
  return json::parse(
      history_json(book.screening(), histories_of(book.screening(), all, in_october, choices), in_october, choices));
}

// Seven pre readings of P1, rising by 0.01 L/min a day.
BookText rising() {
  BookText text;
  text.settings = "title = \"Quarry\"\ntime_zone = \"MST7\"\n";
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::vector<std::string> flows{"2.000", "2.011", "2.019", "2.030", "2.041", "2.050", "2.059"};
  for (std::size_t i = 0; i < flows.size(); ++i) {
    const std::string day = "2026-09-2" + std::to_string(i + 1);
    const std::string name = "S" + std::to_string(i + 1);
    text.samples += name + ",P1," + day + "T08:00," + day + "T16:00\n";
    text.readings += day + "T07:30,pre," + name + ",V1," + flows[i] + "\n";
  }
  return text;
}

TEST(HistoryJson, HasThePinnedNames) {
  const json document = written(rising());
  EXPECT_EQ(document["as_of"], "2026-10-16");
  const json& pump = document["instruments"][0];
  EXPECT_EQ(pump["instrument"], "P1");
  EXPECT_EQ(pump["kind"], "pump");
  const json& series = pump["series"][0];
  EXPECT_EQ(series["series"], "pre-flow");
  EXPECT_EQ(series["unit"], "L/min");
  const json& point = series["points"][0];
  EXPECT_EQ(point["at"], "2026-09-21T07:30-07:00");
  EXPECT_EQ(point["value"], 2.0);
  EXPECT_EQ(point["n"], 1);
  EXPECT_TRUE(point["s"].is_null());
  EXPECT_EQ(point["void"], false);
  const json& chart = series["charts"][0];
  EXPECT_EQ(chart["chart"], "individuals");
  EXPECT_EQ(chart["baseline"]["from"], "2026-09-21T07:30-07:00");
  EXPECT_EQ(chart["baseline"]["to"], "2026-09-27T07:30-07:00");
  EXPECT_EQ(chart["baseline"]["n"], 7);
  for (const char* name : {"centre", "sigma", "lower", "upper"}) EXPECT_TRUE(chart[name].is_number()) << name;
  EXPECT_TRUE(chart["signals"].is_array());
  EXPECT_EQ(series["trend"]["method"], "least-squares");
  EXPECT_EQ(series["trend"]["resolved"], true);
  for (const char* name : {"slope_per_day", "low", "high"}) EXPECT_TRUE(series["trend"][name].is_number()) << name;
  EXPECT_TRUE(series["crossing"].is_null());
}

TEST(HistoryJson, DatesACrossing) {
  BookText text = rising();
  text.samples = "sample,pump,nominal [L/min],started,stopped\n";
  for (int i = 1; i <= 7; ++i) {
    const std::string day = "2026-09-2" + std::to_string(i);
    text.samples += "S" + std::to_string(i) + ",P1,2.0," + day + "T08:00," + day + "T16:00\n";
  }
  const JudgedBook book(text, {{{Subject::sample, "pre.deviation", "within", {"5 %"}}}});
  const json document =
      json::parse(history_json(book.screening(), histories_of(book.screening(), {0}, in_october, {}), in_october, {}));
  const json& crossing = document["instruments"][0]["series"][0]["crossing"];
  EXPECT_NEAR(crossing["limit"].get<double>(), 2.1, 1e-12);
  EXPECT_EQ(crossing["date"], "2026-10-01");  // 0.01 L/min a day from 2.000 on 09-21
  EXPECT_LE(crossing["earliest"], crossing["date"]);
  EXPECT_GE(crossing["latest"], crossing["date"]);
}

TEST(HistoryJson, NamesTheRuleOfEachSignal) {
  ChartChoices choices;
  choices.rules = {{RunPattern::trend, 6}};
  const json signals = written(rising(), choices)["instruments"][0]["series"][0]["charts"][0]["signals"];
  ASSERT_EQ(signals.size(), 2U);
  EXPECT_EQ(signals[0]["at"], "2026-09-26T07:30-07:00");
  EXPECT_EQ(signals[0]["rule"], "trend-of-6");
}

TEST(HistoryJson, TellsAdviceAndWhatItLacks) {
  const json interval = written({})["instruments"][2]["interval"];
  ASSERT_EQ(interval.size(), 5U);
  EXPECT_EQ(interval[0]["method"], "staircase");
  EXPECT_TRUE(interval[0]["advice_days"].is_null());
  EXPECT_TRUE(interval[0]["from"].is_array());
  EXPECT_FALSE(interval[0]["lacks"].empty());
}

TEST(HistoryJson, DatesCertificatesByDay) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found "
      "[L/min]\nC,V1,2026-01-05,2,2,2.01\n";
  EXPECT_EQ(written(text)["instruments"][2]["series"][0]["points"][0]["at"], "2026-01-05");
}

}  // namespace
}  // namespace driftwarden::history_json_test

// SPDX-License-Identifier: MIT
#include "report/risk_texts.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/terminal_text.hpp"
#include "support/drifting_book.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::risk_texts_test {
namespace {

class RiskTexts : public ::testing::Test {
 protected:
  RiskTexts() {
    risk_.from = 20697;
    risk_.to = 20756;
    RuleRisk rule;
    rule.a_year = 365;
    rule.without_u = 2;
    rule.held = 60;
    // input: figures of no book.
    rule.prior = {60, -0.002, 0.0124, 0.0025, 0.0034, std::vector<TrueValuePart>(60)};
    rule.u_least = 0.0005, rule.u_median = 0.001, rule.u_most = 0.016;
    rule.readings = {57, 0.6, 3, 0.16};
    rule.years = {{0, 0, 21.4, 2.04, 0, 0.4}, {1, 0, 21.4, 0.0004, 12.5, 0.4}, {0, 3, 21.4, 1.5, 0, 0.3}};
    risk_.rules = {rule};
  }
  ToldRisk told() const { return {judged_.screening(), risk_, "0.1.0", 20773}; }

  JudgedBook judged_{BookText{}, RulesText{{{Subject::sample, "drift", "within", {"5 %"}}}}};
  FleetRisk risk_;
};

TEST_F(RiskTexts, TableSaysWhatItRestsOnAndWhatAYearBrings) {
  const std::string table = risk_table(told(), Paint(false));
  EXPECT_TRUE(
      table.starts_with("Quarry\n"
                        "Samples of 2026-09-01 to 2026-10-30; a year is 365 days at their pace.\n"
                        "\n"
                        "own/drift: drift within 5 %, else void\n"
                        "  60 samples, 365 a year, and 2 without a known uncertainty, left out; drift\n"
                        "  spreads by 1.2 % about -0.2 %, of which measuring adds 0.25 %; smoothed by\n"
                        "  0.34 %; u is 0.050 % to 1.6 %, mostly 0.10 %\n"
                        "  a year, in the mean    beyond   beyond, passed  good, in band       good, void\n"
                        "  as it is                   21              2.0              0             0.40\n"
                        "  guard band 1.00 U          21           <0.001             13             0.40\n"
                        "  3 more readings            21              1.5              0             0.30\n"
                        "  By each sample's own reading and no other knowledge: 57 pass, of which 0.60\n"
                        "  are beyond; 3 do not keep the limit, of which 0.16 are good.\n"
                        "\n"
                        "How it is reckoned: global risk by JCGM 106:2012"))
      << table;
  EXPECT_TRUE(table.find("never evidence that exposure was low.") != std::string::npos) << table;
}

TEST_F(RiskTexts, TableSaysThatFewSamplesTellNothing) {
  risk_.rules[0].prior = {};
  risk_.rules[0].held = 7;
  risk_.rules[0].years.clear();
  const std::string table = risk_table(told(), Paint(false));
  EXPECT_NE(table.find("it takes\n  20 to tell how true"), std::string::npos) << table;
  EXPECT_EQ(table.find("a year, in the mean"), std::string::npos) << table;
}

TEST_F(RiskTexts, TableSaysThatNothingIsAsked) {
  risk_ = {};
  EXPECT_TRUE(risk_table(told(), Paint(false))
                  .starts_with("Quarry\nNo sample has come.\n\nNo rule in force judges samples by a reading"));
}

TEST_F(RiskTexts, IsAtMostEightyColumnsWide) {
  const std::string table = risk_table(told(), Paint(false));
  for (std::size_t at = 0, end = 0; at < table.size(); at = end + 1) {
    end = std::min(table.find('\n', at), table.size());
    EXPECT_LE(end - at, table_width) << table.substr(at, end - at);
  }
}

TEST_F(RiskTexts, JsonHasTheFiguresInFullAndInTheUnitGiven) {
  const auto all = nlohmann::json::parse(risk_json(told()));
  EXPECT_EQ(all["from"], "2026-09-01");
  const auto& rule = all["rules"][0];
  EXPECT_EQ(rule["rule"], "own/drift");
  EXPECT_EQ(rule["unit"], "%");
  EXPECT_NEAR(rule["prior"]["centre"], -0.2, 1e-12);
  EXPECT_NEAR(rule["prior"]["spread"], 1.24, 1e-12);
  EXPECT_NEAR(rule["u"]["most"], 1.6, 1e-12);
  EXPECT_EQ(rule["samples"], 60);
  EXPECT_EQ(rule["without_uncertainty"], 2);
  EXPECT_EQ(rule["years"][1]["guard"], 1);
  EXPECT_EQ(rule["years"][1]["beyond_and_passed"], 0.0004);  // echo: of the fixture
  EXPECT_EQ(rule["years"][1]["good_in_guard_band"], 12.5);
  EXPECT_EQ(rule["years"][2]["more_readings"], 3);
  EXPECT_EQ(rule["by_readings"]["failed_within"], 0.16);
  EXPECT_EQ(all["cautions"], cautions);
}

}  // namespace
}  // namespace driftwarden::risk_texts_test

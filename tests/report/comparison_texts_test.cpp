// SPDX-License-Identifier: MIT
#include "report/comparison_texts.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/terminal_text.hpp"
#include "support/book_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden::comparison_texts_test {
namespace {

using json = nlohmann::json;

// S1 drifts by -2.5 %: within 5 % now, not within 2 % then.
class ComparisonTexts : public ::testing::Test {
 protected:
  static BookText text() {
    BookText text;
    text.samples = "sample,batch,pump,started,stopped\nS1,\"B,7\",P1,2026-09-21T08:00,2026-09-21T16:00\n";
    return text;
  }
  static RuleSet within(const std::string& limit) {
    return RulesText{{{Subject::sample, "drift", "within", {limit}}}}.rule_set();
  }
  ComparedRules compared() { return {before_, after_, comparison_, "0.1.0", 20773}; }

  Book book_ = book_of(text());
  RuleSet now_ = within("5 %");
  RuleSet then_ = within("2 %");
  Screening before_{book_, now_};
  Screening after_{book_, then_};
  RuleComparison comparison_ = compare_rules(before_, after_, {0});
};

TEST_F(ComparisonTexts, TableTellsEachChangeWithBothMarginsAndTheCounts) {
  EXPECT_EQ(comparison_table(compared(), Paint(false)),
            "Quarry\n"
            "now:  own 1\n"
            "then: own 1\n"
            "\n"
            "S1 (B,7): valid -> void\n"
            "  now:  met: The flow fell 2.5 %, from 2.000 L/min before sampling to\n  1.950 L/min after, within the "
            "limit of 5 %; margin 2.50 % (own/drift)\n"
            "  then: void: The flow fell 2.5 %, from 2.000 L/min before sampling to\n  1.950 L/min after; the limit is "
            "2 %; margin -0.50 % (own/drift)\n"
            "\n"
            "1 sample\n"
            "now:  1 valid, 0 qualified, 0 undecided, 0 void\n"
            "then: 0 valid, 0 qualified, 0 undecided, 1 void\n"
            "1 would change: 1 from valid to void\n\n" +
                wrapped(verdict_key_text(KeyOf::verdicts_and_findings), 0, table_width) + "\n" +
                wrapped(cautions, 0, table_width));
}

TEST_F(ComparisonTexts, TableSaysWhereNothingWouldChange) {
  comparison_ = compare_rules(before_, before_, {0});
  const std::string table = comparison_table({before_, before_, comparison_, "0.1.0", 20773}, Paint(false));
  EXPECT_NE(table.find("\nno verdict would change\n\n"), std::string::npos) << table;
}

TEST_F(ComparisonTexts, TableNamesTheGuardBand) {
  after_.narrow_limits_by(1);
  EXPECT_NE(comparison_table(compared(), Paint(false)).find("then: own 1; limits narrowed by 1.00 U\n"),
            std::string::npos);
}

TEST_F(ComparisonTexts, CsvHasALineADifference) {
  const std::string csv = comparison_csv(compared());
  const std::string line = csv.substr(csv.find('\n') + 1);
  EXPECT_TRUE(line.starts_with("S1,\"B,7\",valid,void,drift,%,own/drift,met,-2.5")) << line;
  EXPECT_NE(line.find(",within 5 %,2.4999"), std::string::npos) << line;
  EXPECT_NE(line.find(",own/drift,void,-2.5"), std::string::npos) << line;
  EXPECT_NE(line.find(",within 2 %,-0.50000"), std::string::npos) << line;
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 2);
}

TEST_F(ComparisonTexts, CsvLeavesASideWithoutARuleEmpty) {
  comparison_.changed[0].differences[0].before.reset();
  EXPECT_NE(comparison_csv(compared()).find(",drift,%,,,,,,own/drift,void,"), std::string::npos)
      << comparison_csv(compared());
}

TEST_F(ComparisonTexts, JsonIsOneObjectWithBothSides) {
  const json all = json::parse(comparison_json(compared()));
  EXPECT_EQ(all["as_of"], "2026-11-16");
  EXPECT_EQ(all["before"]["packs"][0]["pack"], "own");
  EXPECT_EQ(all["before"]["totals"]["valid"], 1);
  EXPECT_EQ(all["after"]["totals"]["void"], 1);
  EXPECT_EQ(all["changes"], (json{{{"before", "valid"}, {"after", "void"}, {"samples", 1}}}));
  const json s1 = all["samples"][0];
  EXPECT_EQ(s1["batch"], "B,7");
  EXPECT_EQ(s1["differences"][0]["measure"], "drift");
  EXPECT_NEAR(s1["differences"][0]["before"]["margin"].get<double>(), 2.5, 1e-9);
  EXPECT_NEAR(s1["differences"][0]["after"]["margin"].get<double>(), -0.5, 1e-9);
  comparison_.changed[0].differences[0].before.reset();
  EXPECT_TRUE(json::parse(comparison_json(compared()))["samples"][0]["differences"][0]["before"].is_null());
}

}  // namespace
}  // namespace driftwarden::comparison_texts_test

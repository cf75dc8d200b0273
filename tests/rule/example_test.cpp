// SPDX-License-Identifier: MIT
#include "rule/example.hpp"

#include <gtest/gtest.h>

#include "rule/pack.hpp"
#include "rule/pack_text.hpp"

namespace driftwarden::example_test {
namespace {

// What comes of one more example of a rule: "" where it gives what it says.
std::string run(PackText text, std::map<std::string, std::string> given, const std::string& gives) {
  Result<Pack> pack = text.parse();
  EXPECT_TRUE(pack) << lines_of(pack.faults());
  if (!pack) return "unsound";
  pack->rules[0].examples = {{std::move(given), gives, {"p.toml", 20, 1}}};
  return lines_of(run_examples(*pack));
}

TEST(RuleExample, GivesWhatTheRuleSays) {
  EXPECT_EQ(run({}, {{"drift", "5.0 %"}}, "valid"), "");
  EXPECT_EQ(run({}, {{"drift", "-5.01 %"}}, "void"), "");
  PackText qualify;
  qualify.with("otherwise", "\"qualify\"");
  EXPECT_EQ(run(qualify, {{"drift", "6 %"}}, "qualified"), "");
  PackText note;
  note.with("otherwise", "\"note\"");
  EXPECT_EQ(run(note, {{"drift", "6 %"}}, "note"), "");
}

TEST(RuleExample, ThatGivesSomethingElseIsAnError) {
  EXPECT_EQ(run({}, {{"drift", "5.1 %"}}, "valid"),
            "p.toml:20:1: error: rule 'p/r' (drift within 5 %) gives 'void' here, not 'valid' [example/fails]\n");
}

TEST(RuleExample, MaySayHowTheRulesOwnSentenceReads) {
  const auto said = [](const std::string& says, const std::string& sentence) {
    PackText text;
    if (!sentence.empty()) text.with("sentence", "\"" + sentence + "\"");
    Pack pack = pack_of(text.text());
    pack.rules[0].examples = {{{{"drift", "-6 %"}}, "void", {"p.toml", 20, 1}, says}};
    return lines_of(run_examples(pack));
  };
  EXPECT_EQ(said("P moved by 6.0 % (limit 5 %) on {pump}", "P moved by {size} (limit {limit}) on {pump}"), "");
  EXPECT_EQ(said("", "P moved by {size}"), "");
  EXPECT_EQ(said("P moved", "P moved by {size}"),
            "p.toml:20:1: error: rule 'p/r' says 'P moved by 6.0 %' here; write that, if it is meant [example/says]\n");
  EXPECT_EQ(said("P moved", ""),
            "p.toml:20:1: error: rule 'p/r' has no sentence of its own; give the rule a sentence, or take says away "
            "[example/says]\n");
}

TEST(RuleExample, WithoutTheMeasureShowsWhatIsDoneThen) {
  EXPECT_EQ(run({}, {}, "undecided"), "");
  PackText skip;
  skip.with("absent", "\"skip\"");
  EXPECT_EQ(run(skip, {}, "skipped"), "");
}

TEST(RuleExample, MayGiveTheDifferenceBehindARatio) {
  PackText absolute;
  absolute.limit("within = \"0.1 L/min\"");
  EXPECT_EQ(run(absolute, {{"drift", "0.11 L/min"}}, "void"), "");
  EXPECT_EQ(run(absolute, {{"drift", "-5 %"}, {"drift.absolute", "-0.1 L/min"}}, "valid"), "");
  EXPECT_EQ(run(absolute, {{"drift", "-4 %"}, {"drift.absolute", "-0.12 L/min"}}, "void"), "");
  EXPECT_EQ(run(absolute, {{"drift", "-4 %"}}, "undecided"), "");
  EXPECT_EQ(run({}, {{"drift.absolute", "-0.12 L/min"}}, "undecided"), "");
}

TEST(RuleExample, IsSkippedWhereTheRuleDoesNotApply) {
  PackText where;
  where.with("where", "{ kind = \"sample\", nominal = { at_least = \"1 L/min\" } }");
  EXPECT_EQ(run(where, {{"drift", "6 %"}}, "void"), "");
  EXPECT_EQ(run(where, {{"drift", "6 %"}, {"kind", "sample"}, {"nominal", "1 L/min"}}, "void"), "");
  EXPECT_EQ(run(where, {{"drift", "6 %"}, {"kind", "blank"}}, "skipped"), "");
  EXPECT_EQ(run(where, {{"drift", "6 %"}, {"nominal", "0.5 L/min"}}, "skipped"), "");
}

TEST(RuleExample, OfYesOrNoGivesTheWord) {
  PackText fault;
  fault.with("measure", "\"fault\"")
      .limit("is = \"no\"")
      .examples(
          "[[rule.example]]\ngiven = { fault = false }\ngives = \"valid\"\n"
          "[[rule.example]]\ngiven = { fault = true }\ngives = \"void\"\n");
  EXPECT_EQ(lines_of(run_examples(pack_of(fault.text()))), "");
  EXPECT_EQ(run(fault, {{"fault", "no"}}, "valid"), "");
  EXPECT_EQ(run(fault, {{"fault", "yes"}}, "void"), "");
}

TEST(RuleExample, GivesOnlyWhatTheRuleLooksAt) {
  EXPECT_EQ(run({}, {{"pre.flow", "2 L/min"}}, "undecided"),
            "p.toml:20:1: error: 'pre.flow' is nothing that rule 'p/r' looks at; known are drift, drift.absolute "
            "[example/unknown-name]\n");
}

TEST(RuleExample, OfASwitchedOffRuleIsRunToo) {
  PackText off;
  off.with("enabled", "false");
  EXPECT_NE(run(off, {{"drift", "6 %"}}, "valid"), "");
}

TEST(RuleExample, OutcomesAreNamedInTheirOrder) {
  const std::vector<std::string_view> names(example_outcomes().begin(), example_outcomes().end());
  EXPECT_EQ(names, std::vector<std::string_view>({"valid", "note", "qualified", "undecided", "void", "skipped"}));
}

}  // namespace
}  // namespace driftwarden::example_test

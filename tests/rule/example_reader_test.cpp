// SPDX-License-Identifier: MIT
#include "rule/example_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::example_reader_test {
namespace {

const std::string good = "[[rule.example]]\ngiven = { drift = \"5 %\" }\ngives = \"valid\"\n";
const std::string bad = "[[rule.example]]\ngiven = { drift = \"-5.1 %\" }\ngives = \"void\"\n";

std::string faults_of(const std::string& examples) { return PackText().examples(examples).faults(); }

TEST(ExampleReader, KeepsWhatIsGivenAsText) {
  PackText text;
  text.with("measure", "\"pre.count\"")
      .limit("at_least = 3")
      .examples(
          "[[rule.example]]\ngiven = { \"pre.count\" = 3 }\ngives = \"valid\"\n"
          "[[rule.example]]\ngiven = { \"pre.count\" = 2.0 }\ngives = \"void\"\n");
  const Rule rule = text.rule();
  ASSERT_EQ(rule.examples.size(), 2U);
  EXPECT_EQ(rule.examples[0].given.at("pre.count"), "3");
  EXPECT_EQ(rule.examples[1].given.at("pre.count"), "2");
  EXPECT_EQ(rule.examples[1].gives, "void");
  EXPECT_EQ(to_text(rule.examples[1].place), "p.toml:16:1");
}

TEST(ExampleReader, WantsOneThatPassesAndOneThatDoesNot) {
  const std::string none_passes =
      "p.toml:4:1: error: rule 'r' has no example that passes; add a [[rule.example]] with gives = \"valid\" "
      "[rule/no-example]\n";
  const std::string none_is_refused =
      "p.toml:4:1: error: rule 'r' has no example that doesn't pass; add a [[rule.example]] just beyond the limit "
      "[rule/no-example]\n";
  EXPECT_EQ(faults_of(good + bad), "");
  EXPECT_EQ(faults_of(bad), none_passes);
  EXPECT_EQ(faults_of(good), none_is_refused);
  EXPECT_EQ(faults_of(good + "[[rule.example]]\ngiven = {}\ngives = \"undecided\"\n"), none_is_refused);
  EXPECT_EQ(faults_of(""), none_passes + none_is_refused);
}

TEST(ExampleReader, WantsBothKeysAndNoOther) {
  EXPECT_EQ(faults_of(good + bad + "[[rule.example]]\ngive = {}\n"),
            "p.toml:19:1: error: an example of rule 'r' has no 'given'; a measure that is missing is written as given "
            "= {} [toml/missing-key]\n"
            "p.toml:19:1: error: an example of rule 'r' has no 'gives'; known are valid, note, qualified, undecided, "
            "void, skipped [toml/missing-key]\n"
            "p.toml:20:1: error: 'give' is no key of an example of rule 'r'; did you mean 'given'? "
            "[toml/unknown-key]\n");
}

TEST(ExampleReader, RefusesAnUnknownOutcome) {
  EXPECT_EQ(faults_of(good + "[[rule.example]]\ngiven = { drift = \"6 %\" }\ngives = \"viod\"\n"),
            "p.toml:18:9: error: 'gives' can't be 'viod'; did you mean 'void'? [toml/unknown-word]\n");
}

TEST(ExampleReader, RefusesWhatTheRuleDoesNotLookAt) {
  EXPECT_EQ(faults_of(good + bad + "[[rule.example]]\ngiven = { drfit = \"6 %\" }\ngives = \"void\"\n"),
            "p.toml:20:11: error: 'drfit' is nothing that rule 'p/r' looks at; did you mean 'drift'? "
            "[example/unknown-name]\n");
}

TEST(ExampleReader, RefusesAnAmountItCannotRead) {
  EXPECT_EQ(faults_of(good + bad + "[[rule.example]]\ngiven = { drift = 6 }\ngives = \"void\"\n"),
            "p.toml:20:11: error: '6' lacks a unit; units read are % or, of the difference itself, L/min, mL/min, "
            "cm3/min, m3/h, m3/min, ft3/min [amount/no-unit]\n");
  EXPECT_EQ(
      faults_of(good + bad + "[[rule.example]]\ngiven = { \"drift.absolute\" = \"6 %\" }\ngives = \"void\"\n"),
      "p.toml:20:11: error: '6 %' is a ratio, drift.absolute a flow; units read are L/min, mL/min, cm3/min, m3/h, "
      "m3/min, ft3/min [amount/wrong-dimension]\n");
}

TEST(ExampleReader, TellsThatADottedNameIsQuoted) {
  EXPECT_EQ(faults_of(good + bad + "[[rule.example]]\ngiven = { pre.count = 3 }\ngives = \"void\"\n"),
            "p.toml:20:11: error: 'pre' of an example of rule 'r' is a table; a name with a dot is quoted, as in { "
            "\"pre.count\" = 3 } [toml/wrong-type]\n");
}

TEST(ExampleReader, WantsATableOfWhatIsGiven) {
  EXPECT_EQ(faults_of(good + bad + "[[rule.example]]\ngiven = \"5 %\"\ngives = \"void\"\n"),
            "p.toml:20:9: error: 'given' is text; write it as { drift = \"5 %\" } [toml/wrong-type]\n");
}

}  // namespace
}  // namespace driftwarden::example_reader_test

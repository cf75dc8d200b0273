// SPDX-License-Identifier: MIT
#include "rule/rule_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::rule_reader_test {
namespace {

TEST(RuleReader, ReadsEveryKey) {
  PackText text;
  text.with("where", "{ kind = \"sample\" }")
      .with("base", "\"mean\"")
      .with("absent", "\"qualify\"")
      .with("note", "\"N\"")
      .with("enabled", "false")
      .with("standing", "\"common practice\"");
  ASSERT_EQ(text.faults(), "");
  const Rule rule = text.rule();
  EXPECT_EQ(rule.full_name(), "p/r");
  EXPECT_EQ(rule.edition, "1");
  EXPECT_EQ(rule.of, Subject::sample);
  ASSERT_EQ(rule.where.size(), 1U);
  EXPECT_EQ(measure_of(rule).name, "drift");
  EXPECT_EQ(rule.base, Base::mean);
  EXPECT_EQ(rule.limit.text, "within 5 %");
  EXPECT_EQ(rule.otherwise, Otherwise::void_);
  EXPECT_EQ(rule.absent, Absent::qualify);
  EXPECT_EQ(rule.reason, "R");
  EXPECT_EQ(rule.source, "S");
  EXPECT_EQ(rule.note, "N");
  EXPECT_EQ(rule.standing, Standing::common_practice);
  EXPECT_FALSE(rule.enabled);
  EXPECT_EQ(to_text(rule.place), "p.toml:4:1");
  EXPECT_FALSE(rule.overridden);
}

TEST(RuleReader, TakesWhatIsNotWrittenAsTheManualSays) {
  const Rule rule = PackText().rule();
  EXPECT_EQ(rule.id, "r");
  EXPECT_TRUE(rule.enabled);
  EXPECT_EQ(rule.absent, Absent::undecided);
  EXPECT_EQ(rule.base, Base::by_practice);
  EXPECT_TRUE(rule.where.empty());
}

TEST(RuleReader, ReadsItsOwnSentence) {
  EXPECT_EQ(PackText().with("sentence", "\"{pump} moved by {size}\"").rule().sentence, "{pump} moved by {size}");
  EXPECT_EQ(PackText().with("sentence", "\"{pum} moved\"").faults(),
            "p.toml:13:12: error: {pum} is no placeholder of a sample; did you mean 'pump'? [rule/sentence]\n");
  EXPECT_EQ(PackText().with("sentence", "\"moved {by\"").faults(),
            "p.toml:13:12: error: a brace stands alone; write a placeholder as in {figure} [rule/sentence]\n");
}

TEST(RuleReader, RefusesAnUnknownKey) {
  EXPECT_EQ(PackText().with("witin", "\"5 %\"").faults(),
            "p.toml:13:1: error: 'witin' is no key of rule 'r'; did you mean 'within'? [toml/unknown-key]\n");
}

TEST(RuleReader, RefusesAnUnknownMeasure) {
  EXPECT_EQ(PackText().with("measure", "\"drfit\"").faults(),
            "p.toml:7:11: error: 'drfit' is no measure of a sample; did you mean 'drift'? [rule/unknown-measure]\n");
  EXPECT_EQ(PackText().with("measure", "\"due\"").faults(),
            "p.toml:7:11: error: 'due' is no measure of a sample; it is a measure of a calibrator "
            "[rule/unknown-measure]\n");
  EXPECT_EQ(PackText().with("measure", "\"humour\"").faults(),
            "p.toml:7:11: error: 'humour' is no measure of a sample; 'driftwarden rules measures' lists them "
            "[rule/unknown-measure]\n");
}

TEST(RuleReader, RefusesALimitOfTheWrongDimension) {
  EXPECT_EQ(PackText().limit("within = \"5 kPa\"").faults(),
            "p.toml:8:10: error: '5 kPa' is a pressure, drift a ratio; units read are % or, of the difference itself, "
            "L/min, mL/min, cm3/min, m3/h, m3/min, ft3/min [amount/wrong-dimension]\n");
}

TEST(RuleReader, RefusesARuleWithoutALimit) {
  EXPECT_EQ(
      PackText().without("within").faults(),
      "p.toml:4:1: error: rule 'r' has no limit; known are within, strictly_within, at_most, less_than, at_least, "
      "more_than, between, is, one_of [rule/no-limit]\n");
}

TEST(RuleReader, RefusesARuleWithTwoLimits) {
  EXPECT_EQ(PackText().with("at_most", "\"5 %\"").faults(),
            "p.toml:13:1: error: rule 'r' has a second limit, 'at_most'; its limit 'within' is on line 8; write two "
            "rules [rule/two-limits]\n");
}

TEST(RuleReader, RefusesARuleWithoutItsGrounds) {
  EXPECT_EQ(PackText().without("source").faults(),
            "p.toml:4:1: error: rule 'r' has no 'source'; name the document, its edition and the clause "
            "[toml/missing-key]\n");
  EXPECT_EQ(PackText().without("reason").faults(),
            "p.toml:4:1: error: rule 'r' has no 'reason'; say what goes wrong where the limit is not kept "
            "[toml/missing-key]\n");
  EXPECT_EQ(PackText().without("standing").faults(),
            "p.toml:4:1: error: rule 'r' has no 'standing'; known are read, common practice, house, memory "
            "[toml/missing-key]\n");
  EXPECT_EQ(PackText().with("source", "\" \"").faults(),
            "p.toml:11:10: error: 'source' of rule 'r' is empty [toml/empty]\n");
}

TEST(RuleReader, RefusesWordsItDoesNotKnow) {
  EXPECT_EQ(PackText().with("otherwise", "\"voide\"").faults(),
            "p.toml:9:13: error: 'otherwise' can't be 'voide'; did you mean 'void'? [toml/unknown-word]\n");
  EXPECT_EQ(PackText().with("absent", "\"ignore\"").faults(),
            "p.toml:13:10: error: 'absent' can't be 'ignore'; known are undecided, void, qualify, skip "
            "[toml/unknown-word]\n");
  EXPECT_EQ(PackText().with("standing", "\"hearsay\"").faults(),
            "p.toml:12:12: error: 'standing' can't be 'hearsay'; known are read, common practice, house, memory "
            "[toml/unknown-word]\n");
  EXPECT_EQ(PackText().with("of", "\"samples\"").faults(),
            "p.toml:6:6: error: 'of' can't be 'samples'; did you mean 'sample'? [toml/unknown-word]\n");
}

TEST(RuleReader, RefusesARuleFromMemoryThatIsSwitchedOn) {
  EXPECT_EQ(PackText().with("standing", "\"memory\"").faults(),
            "p.toml:12:12: error: rule 'r' is from memory and enabled; add enabled = false, or a source that was read "
            "[rule/memory-enabled]\n");
  EXPECT_EQ(PackText().with("standing", "\"memory\"").with("enabled", "false").faults(), "");
}

TEST(RuleReader, NamesTheClauseThatARuleOfTheHouseIsAfter) {
  const Rule rule = PackText().with("after", "\"Clause 7\"").rule();
  EXPECT_EQ(rule.after, "Clause 7");
  EXPECT_EQ(known_by_text(rule), "house, after Clause 7");
  EXPECT_EQ(known_by_text(PackText().rule()), "house");
  EXPECT_EQ(
      PackText().with("standing", "\"read\"").with("after", "\"Clause 7\"").faults(),
      "p.toml:13:9: error: rule 'r' is after a clause and stands as 'read'; where the step from the clause to the "
      "rule is your own, write standing = \"house\" [rule/after]\n");
}

TEST(RuleReader, TakesAnAlternativeOnlyBesideALimitToBothSidesAndOfTheOtherKind) {
  EXPECT_EQ(PackText().with("or_within", "\"0.1 L/min\"").faults(), "");
  EXPECT_EQ(PackText().with("or_within", "\"6 %\"").faults(),
            "p.toml:13:13: error: '6 %' is of the same kind as the limit; write one relative and one absolute, as in "
            "within = \"5 %\" and or_within = \"0.1 L/min\" [limit/no-alternative]\n");
  EXPECT_EQ(PackText().with("or_within", "\"-0.1 L/min\"").faults(),
            "p.toml:13:13: error: '-0.1 L/min' is negative; a limit to both sides is written without a sign "
            "[limit/negative]\n");
  EXPECT_EQ(PackText().with("or_within", "\"0.1 L/min\"").limit("at_most = \"5 %\"").faults(),
            "p.toml:13:13: error: 'or_within' of rule 'r' is no alternative to 'at_most'; write it as an amount beside "
            "within or strictly_within [limit/no-alternative]\n");
}

TEST(RuleReader, RefusesABaseThatMakesNoSense) {
  EXPECT_EQ(PackText()
                .with("measure", "\"pre.count\"")
                .with("base", "\"pre\"")
                .limit("at_least = 3")
                .examples("[[rule.example]]\ngiven = { \"pre.count\" = 3 }\ngives = \"valid\"\n"
                          "[[rule.example]]\ngiven = { \"pre.count\" = 2 }\ngives = \"void\"\n")
                .faults(),
            "p.toml:13:8: error: 'pre.count' has no base to choose [rule/base]\n");
  EXPECT_EQ(PackText()
                .with("measure", "\"pre.deviation\"")
                .with("base", "\"pre\"")
                .examples("[[rule.example]]\ngiven = { \"pre.deviation\" = \"5 %\" }\ngives = \"valid\"\n"
                          "[[rule.example]]\ngiven = { \"pre.deviation\" = \"6 %\" }\ngives = \"void\"\n")
                .faults(),
            "p.toml:13:8: error: 'pre.deviation' relative to 'pre' is always 0 [rule/base]\n");
}

TEST(RuleReader, RefusesAnIdThatWouldNotReadAsOne) {
  EXPECT_EQ(PackText().with("id", "\"a/b\"").faults(),
            "p.toml:5:6: error: 'a/b' can't be a name; names are of letters a to z, digits, '-', '_' and '.' "
            "[toml/not-a-name]\n");
  EXPECT_EQ(PackText().without("id").faults(), "p.toml:4:1: error: a rule has no 'id' [toml/missing-key]\n");
}

TEST(RuleReader, ReportsAllFaultsOfARuleAtOnce) {
  EXPECT_EQ(PackText()
                .with("measure", "\"drfit\"")
                .with("otherwise", "\"voide\"")
                .without("source")
                .with("enabled", "\"no\"")
                .faults(),
            "p.toml:4:1: error: rule 'r' has no 'source'; name the document, its edition and the clause "
            "[toml/missing-key]\n"
            "p.toml:7:11: error: 'drfit' is no measure of a sample; did you mean 'drift'? [rule/unknown-measure]\n"
            "p.toml:9:13: error: 'otherwise' can't be 'voide'; did you mean 'void'? [toml/unknown-word]\n"
            "p.toml:12:11: error: 'enabled' of rule 'r' is text; write true or false, without quotes "
            "[toml/wrong-type]\n");
}

}  // namespace
}  // namespace driftwarden::rule_reader_test

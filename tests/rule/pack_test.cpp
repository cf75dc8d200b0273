// SPDX-License-Identifier: MIT
#include "rule/pack.hpp"

#include <gtest/gtest.h>

#include "rule/example.hpp"
#include "rule/pack_text.hpp"

namespace driftwarden::pack_test {
namespace {

// Invented figures, in every form that a pack may be written in.
constexpr std::string_view orchard = R"(
pack    = "orchard"
title   = "Rules of an orchard that doesn't exist"
edition = "2026-11-25"
note    = "for tests"

[sampler.respirable-2lpm]
title    = "Respirable sampler, 2 L/min"
nominal  = "2.0 L/min"
fraction = "respirable"

[practice]
flow_for_volume = "lower"
source = "house manual, section 3"

[[rule]]
id        = "drift"
of        = "sample"
where     = { kind = "sample", nominal = { at_least = "1 L/min" } }
measure   = "drift"
base      = "mean"
within    = "5 %"
otherwise = "void"
absent    = "undecided"
reason    = "The flow that was set no longer describes the flow that was drawn."
source    = "house manual, section 4"
standing  = "house"

[[rule.example]]
given = { drift = "5.0 %" }
gives = "valid"
[[rule.example]]
given = { drift = "-5.01 %" }
gives = "void"
[[rule.example]]
given = { drift = "-5.01 %", nominal = "0.5 L/min" }
gives = "skipped"
[[rule.example]]
given = {}
gives = "undecided"

[[rule]]
id = "set-size"
of = "set"
where = { stage = ["pre", "post"] }
measure = "count"
at_least = 3
otherwise = "qualify"
reason = "Fewer readings say little about their spread."
source = "house manual, section 5"
standing = "house"
[[rule.example]]
given = { count = 3 }
gives = "valid"
[[rule.example]]
given = { count = 2 }
gives = "qualified"

[[rule]]
id = "as-found"
of = "calibrator"
measure = "as-found.error"
between = ["-2 %", "2 %"]
otherwise = "note"
reason = "What leaned on it has to be looked at."
source = "remembered"
standing = "memory"
enabled = false
[[rule.example]]
given = { "as-found.error" = "2 %" }
gives = "valid"
[[rule.example]]
given = { "as-found.error" = "-2.01 %" }
gives = "note"
)";

TEST(Pack, IsReadInTheOrderOfItsFile) {
  const Result<Pack> pack = parse_pack(orchard, "orchard.toml");
  ASSERT_TRUE(pack) << lines_of(pack.faults());
  EXPECT_EQ(pack->name, "orchard");
  EXPECT_EQ(pack->title, "Rules of an orchard that doesn't exist");
  EXPECT_EQ(pack->edition, "2026-11-25");
  EXPECT_EQ(pack->note, "for tests");
  EXPECT_EQ(pack->file, "orchard.toml");
  ASSERT_EQ(pack->rules.size(), 3U);
  EXPECT_EQ(pack->rules[0].full_name(), "orchard/drift");
  EXPECT_EQ(pack->rules[1].full_name(), "orchard/set-size");
  EXPECT_EQ(pack->rules[2].full_name(), "orchard/as-found");
  EXPECT_EQ(pack->samplers.size(), 1U);
  EXPECT_EQ(pack->practice.size(), 1U);
}

TEST(Pack, PassesItsExamples) { EXPECT_EQ(lines_of(run_examples(pack_of(std::string(orchard)))), ""); }

// The form that generated packs take: quoted names, plain counts, days.
TEST(Pack, MayBeWrittenByAProgram) {
  PackText text;
  text.with("measure", "\"calibrator.overdue\"")
      .limit("at_most = \"0 d\"")
      .with("absent", "\"skip\"")
      .examples(
          "[[rule.example]]\ngiven = { \"calibrator.overdue\" = \"0 d\" }\ngives = \"valid\"\n"
          "[[rule.example]]\ngiven = { \"calibrator.overdue\" = \"1 d\" }\ngives = \"void\"\n");
  EXPECT_EQ(text.faults(), "");
  EXPECT_EQ(lines_of(run_examples(pack_of(text.text()))), "");
}

TEST(Pack, WantsItsHeading) {
  EXPECT_EQ(lines_of(parse_pack("pak = 1\n", "p.toml").faults()),
            "p.toml:1:1: error: a rule pack has no 'pack' [toml/missing-key]\n"
            "p.toml:1:1: error: a rule pack has no 'title' [toml/missing-key]\n"
            "p.toml:1:1: error: a rule pack has no 'edition'; the date of its last change, as in \"2026-11-25\" "
            "[toml/missing-key]\n"
            "p.toml:1:1: error: 'pak' is no key of a rule pack; did you mean 'pack'? [toml/unknown-key]\n");
}

TEST(Pack, HasAPlainNameAndAnEditionInQuotes) {
  EXPECT_EQ(PackText().heading("pack = \"p/q\"\ntitle = \"T\"\nedition = 2026-11-25\n").faults(),
            "p.toml:1:8: error: 'p/q' can't be a name; names are of letters a to z, digits, '-', '_' and '.' "
            "[toml/not-a-name]\n"
            "p.toml:3:11: error: 'edition' of a rule pack is a date or time; write text in quotes [toml/wrong-type]\n");
}

TEST(Pack, RefusesASecondRuleOfOneId) {
  const std::string one = PackText().text();
  const std::string second = one.substr(one.find("[[rule]]"));
  EXPECT_EQ(lines_of(parse_pack(one + second, "p.toml").faults()),
            "p.toml:19:1: error: there is a rule 'r' already; it is on line 4 [rule/twice]\n");
}

TEST(Pack, ReportsTheFaultsOfAllItsRulesFromTopToBottom) {
  const std::string one = PackText().without("source").text();
  const std::string second = PackText().with("id", "\"q\"").without("reason").text();
  EXPECT_EQ(lines_of(parse_pack(one + second.substr(second.find("[[rule]]")), "p.toml").faults()),
            "p.toml:4:1: error: rule 'r' has no 'source'; name the document, its edition and the clause "
            "[toml/missing-key]\n"
            "p.toml:18:1: error: rule 'q' has no 'reason'; say what goes wrong where the limit is not kept "
            "[toml/missing-key]\n");
}

TEST(Pack, ThatIsNotTomlSaysWhere) {
  EXPECT_EQ(lines_of(parse_pack("pack = \n", "p.toml").faults()),
            "p.toml:1:8: error: this is not TOML: Error while parsing key-value pair: expected value, saw '\\n' "
            "[toml/syntax]\n");
}

}  // namespace
}  // namespace driftwarden::pack_test

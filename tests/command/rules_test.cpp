// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"
#include "verdict/rule_files.hpp"

namespace driftwarden::rules_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Rules, CheckRunsTheExamplesOfAFile) {
  const CalledBook book(judged_text("5 %"));
  const Called called = call({"rules", "check", book.file("own.toml")});
  EXPECT_EQ(called.status, 0);
  EXPECT_EQ(called.out, "own: 1 rule, 2 examples, 0 failed\n");
}

TEST(Rules, CheckTellsTheExampleThatFails) {
  BookText text = judged_text("5 %");
  text.rules.replace(text.rules.find("-99 %"), 5, "-4 %");
  const CalledBook book(text);
  const Called called = call({"rules", "check", book.file("own.toml")});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.out, "own: 1 rule, 2 examples, 1 failed\n");
  EXPECT_TRUE(has(called.err, "own.toml:")) << called.err;
}

TEST(Rules, CheckTellsEveryFileThatIsUnsound) {
  const CalledBook book(judged_text("5 %"));
  std::ofstream(book.file("bad.toml")) << "pack = \"bad\"\n[[rule]]\nid = \"x\"\n";
  const Called called = call({"rules", "check", book.file("bad.toml"), book.file("own.toml")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "bad.toml:")) << called.err;
  EXPECT_TRUE(has(called.out, "own: 1 rule, 2 examples, 0 failed\n")) << called.out;
}

TEST(Rules, CheckRefusesAFileThatIsNotThere) { EXPECT_EQ(call({"rules", "check", "nowhere.toml"}).status, 2); }

TEST(Rules, CheckWithoutFilesRunsTheShippedPacks) {
  const Called called = call({"rules", "check"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "common-practice: ")) << called.out;
}

TEST(Rules, ListNamesTheShippedPacksWithTheirEditions) {
  const Called called = call({"rules", "list"});
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(has(called.out, "common-practice          2026-11-28  Common practice for air-sampling pumps\n"))
      << called.out;
}

TEST(Rules, ShowPrintsARuleInWords) {
  const Called called = call({"rules", "show", "common-practice/drift"});
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(called.out.starts_with("common-practice/drift\n  measure    drift of a sample, base pre\n"))
      << called.out;
  EXPECT_TRUE(has(called.out, "limit      within 5 %, otherwise void; when missing: undecided\n")) << called.out;
}

TEST(Rules, ShowPrintsAWholePack) {
  const Called called = call({"rules", "show", "common-practice"});
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(has(called.out, "edition 2026-11-28, sha256 ")) << called.out;
  EXPECT_TRUE(has(called.out, "\ncommon-practice/drift\n")) << called.out;
  EXPECT_TRUE(has(called.out, "\ncommon-practice/post-reading\n")) << called.out;
}

TEST(Rules, ShowPrintsTheRangeThatARuleAsksFor) {
  EXPECT_TRUE(has(call({"rules", "show", "us-coal-mine-dust/set-flow"}).out,
                  "where      kind is sample, nominal at most 2.1 L/min\n"));
  EXPECT_TRUE(has(call({"rules", "show", "us-cotton-dust/flow-after"}).out,
                  "where      kind is sample, nominal at least 7 L/min and at most 8 L/min\n"));
}

TEST(Rules, ShowPrintsWhatARuleLeavesOut) {
  EXPECT_TRUE(has(call({"rules", "show", "nmam-respirable-silica/volume-least"}).out,
                  "where      kind is sample, method is neither NMAM 7603 nor NIOSH 7603 nor 7603\n"));
}

TEST(Rules, ShowPrintsTheClauseThatARuleIsAfter) {
  EXPECT_TRUE(has(call({"rules", "show", "us-coal-mine-dust/monitor-flow"}).out, "(house, after 30 CFR 74.7(j))\n"));
}

// Each holds a sample to a step that its clause does not ask for in so many words.
TEST(Rules, WhoseStepIsOursNameTheClauseTheyAreAfter) {
  for (const char* rule :
       {"nmam-respirable-dust/nylon-cyclone-held", "nmam-respirable-silica/nylon-cyclone-held",
        "nmam-respirable-silica/metal-cyclone-held", "record-keeping/standard-named", "record-keeping/as-found",
        "record-keeping/void-reasons", "record-keeping/fault-said", "record-keeping/uncertainty",
        "us-ambient-pm/pm25-flow-flag", "us-ambient-pm/pm25-cut-off", "us-asbestos/calibrated-before",
        "us-asbestos/calibrated-after", "us-asbestos/temperature-change", "us-coal-mine-dust/second-hour-flow",
        "us-coal-mine-dust/last-hour-flow", "us-coal-mine-dust/monitor-flow", "za-mine-dust/calibrated-before",
        "za-mine-dust/checked-after"}) {
    const Called called = call({"rules", "show", rule});
    EXPECT_EQ(called.status, 0) << rule;
    EXPECT_TRUE(has(called.out, "source     House, after ")) << called.out;
    EXPECT_TRUE(has(called.out, "(house, after ")) << called.out;
  }
}

// Two void rules of one clause would mean the narrower of both; nobody has seen the clause, so it is off.
TEST(Rules, WithTwoLimitsInOneClauseAreOneRule) {
  const std::string rule = call({"rules", "show", "common-practice/mdhs-14-drift"}).out;
  EXPECT_TRUE(rule.starts_with("common-practice/mdhs-14-drift (switched off)\n")) << rule;
  EXPECT_TRUE(has(rule, "limit      within 5 % or 0.1 L/min, otherwise void;")) << rule;
  EXPECT_TRUE(has(rule, "(memory)")) << rule;
  EXPECT_FALSE(has(call({"rules", "show", "common-practice"}).out, "common-practice/mdhs-14-drift-"));
}

TEST(Rules, ShowPrintsWhatAPackStatesOfAMethod) {
  const std::string out = call({"rules", "show", "nmam-respirable-dust"}).out;
  EXPECT_TRUE(has(out, "\nmethod NMAM 0600\n  title          Respirable particulates not otherwise regulated\n"))
      << out;
  EXPECT_TRUE(has(out, "  quantification 0.1 mg: NMAM 0600, Issue 3 (15 January 1998), page 1: the low end")) << out;
}

TEST(Rules, ShowPrintsTheSamplersOfAPackWithTheirSources) {
  const Called called = call({"rules", "show", "samplers"});
  EXPECT_EQ(called.status, 0);
  for (const char* part : {"\nsampler respirable-parallel-impactor\n", "\nsampler nylon-cyclone-10mm\n",
                           "\nsampler total-dust-cassette-37mm\n", "\nsampler thoracic-cyclone\n",
                           "  nominal    1.7 L/min\n", "page 1 (read)\n"}) {
    EXPECT_TRUE(has(called.out, part)) << part;
  }
}

TEST(Rules, WithoutPacksSayWhereTheyWereLookedFor) {
  const ScratchFolder nothing;
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, nothing.path(), "0.1.0"};
  for (const std::vector<std::string>& command :
       {std::vector<std::string>{"rules", "list"}, {"rules", "check"}, {"rules", "show", "common-practice"}}) {
    err.str("");
    EXPECT_EQ(run_command_line(command, surroundings), 2) << command[1];
    EXPECT_TRUE(has(err.str(), (nothing.path() / "rules").string() + ": error: there are no rule packs here"))
        << err.str();
    EXPECT_TRUE(has(err.str(), "[rules/no-packs]")) << err.str();
  }
}

// Every sampler that is shipped says where its flow is from and how it is known; none is from memory with a flow.
TEST(Rules, ShippedSamplersHaveTheirSourceAndStanding) {
  std::size_t looked_at = 0;
  for (const std::string& name : shipped_packs(std::filesystem::path(project_folder()) / "rules")) {
    const Result<Pack> pack = read_pack(std::filesystem::path(project_folder()) / "rules" / (name + ".toml"), name);
    ASSERT_TRUE(pack);
    for (const Sampler& sampler : pack->samplers) {
      ++looked_at;
      EXPECT_FALSE(sampler.source.empty()) << name << ' ' << sampler.name;
      EXPECT_TRUE(sampler.standing) << name << ' ' << sampler.name;
    }
  }
  EXPECT_GE(looked_at, 15U);
}

TEST(Rules, ShowNamesTheNearestRule) {
  const Called called = call({"rules", "show", "common-practice/drfit"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(
      has(called.err, "no pack or rule 'common-practice/drfit' is shipped; did you mean 'common-practice/drift'?"))
      << called.err;
}

TEST(Rules, ShowKnowsARuleByItsIdWhereOnePackHasIt) {
  const Called called = call({"rules", "show", "calibrator-uncertainty"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(called.out.starts_with("common-practice/calibrator-uncertainty")) << called.out;
}

TEST(Rules, ShowNamesAllRulesOfAnIdThatSeveralPacksHave) {
  const Called called = call({"rules", "show", "warm-up"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "several packs have a rule 'warm-up'; name one of ")) << called.err;
  EXPECT_TRUE(has(called.err, "common-practice/warm-up")) << called.err;
}

TEST(Rules, MeasuresPrintsEveryMeasureOfEverySubject) {
  const Called called = call({"rules", "measures"});
  EXPECT_EQ(called.status, 0);
  for (const Subject subject : {Subject::sample, Subject::set, Subject::reading, Subject::calibrator, Subject::pump,
                                Subject::batch, Subject::result}) {
    EXPECT_TRUE(has(called.out, "of a " + std::string(to_text(subject)) + ":\n"));
    for (const Measure& measure : measures(subject))
      EXPECT_TRUE(has(called.out, "  " + std::string(measure.name) + " ")) << measure.name;
  }
  EXPECT_TRUE(has(called.out, "[exact: counted]"));
  EXPECT_TRUE(has(called.out, "[u by the sample's budget]"));
}

TEST(Rules, MeasuresPrintsThoseOfOneSubject) {
  const Called called = call({"rules", "measures", "batch"});
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(called.out.starts_with("of a batch:\n"));
  EXPECT_FALSE(has(called.out, "of a sample"));
  EXPECT_EQ(call({"rules", "measures", "wagon"}).status, 2);
}

}  // namespace
}  // namespace driftwarden::rules_test

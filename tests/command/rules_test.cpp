// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::rules_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Rules, CheckRunsTheExamplesOfAFile) {
  const BookFolder book(judged_text("5 %"));
  const Called called = call({"rules", "check", book.file("own.toml")});
  EXPECT_EQ(called.status, 0);
  EXPECT_EQ(called.out, "own: 1 rule, 2 examples, 0 failed\n");
}

TEST(Rules, CheckTellsTheExampleThatFails) {
  BookText text = judged_text("5 %");
  text.rules.replace(text.rules.find("-99 %"), 5, "-4 %");
  const BookFolder book(text);
  const Called called = call({"rules", "check", book.file("own.toml")});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.out, "own: 1 rule, 2 examples, 1 failed\n");
  EXPECT_TRUE(has(called.err, "own.toml:")) << called.err;
}

TEST(Rules, CheckTellsEveryFileThatIsUnsound) {
  const BookFolder book(judged_text("5 %"));
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
  EXPECT_TRUE(has(called.out, "common-practice          2026-11-25  Common practice for air-sampling pumps\n"))
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
  EXPECT_TRUE(has(called.out, "edition 2026-11-25, sha256 ")) << called.out;
  EXPECT_TRUE(has(called.out, "\ncommon-practice/drift\n")) << called.out;
  EXPECT_TRUE(has(called.out, "\ncommon-practice/post-reading\n")) << called.out;
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
  for (const Subject subject :
       {Subject::sample, Subject::set, Subject::reading, Subject::calibrator, Subject::pump, Subject::batch}) {
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

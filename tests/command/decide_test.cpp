// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::decide_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Says that S1's drift (beyond the rule of judged_text) holds or not.
std::vector<std::string> decide(const CalledBook& book, const std::string& rule = "own/drift",
                                const std::string& ruling = "overrule", const std::string& by = "site hygienist",
                                const std::string& reason = "looked at", const std::string& sample = "S1") {
  return {"decide", book.path(), sample, rule, ruling, "--by", by, "--reason", reason};
}

TEST(Decide, WritesTheDecisionWithTheTimeOfNowAndSaysHowTheSampleStands) {
  const CalledBook book(judged_text());
  const Called called = call(decide(book));
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(called.out, wrapped(caution_on_overruling, 0, table_width) +
                            "decisions.csv:2: overrule own/drift of S1, by site hygienist, 2026-11-16T12:00+00:00\n"
                            "S1: void, but counts as valid by decision\n");
  EXPECT_EQ(text_of_file(book.file("decisions.csv")),
            "decided,by,subject,rule,ruling,reason\n"
            "2026-11-16T12:00+00:00,site hygienist,S1,own/drift,overrule,looked at\n");
}

TEST(Decide, ALaterRulingWinsOverAnEarlierOneAndBothStay) {
  const CalledBook book(judged_text());
  EXPECT_EQ(call(decide(book)).status, 0);
  EXPECT_EQ(call({"screen", book.path()}).status, 0);
  const Called second = call(decide(book, "own/drift", "uphold", "instrument keeper", "not convinced"));
  EXPECT_EQ(second.out,
            "decisions.csv:3: uphold own/drift of S1, by instrument keeper, 2026-11-16T12:00+00:00\nS1: void\n");
  EXPECT_EQ(call({"screen", book.path()}).status, 1);
  const std::string explained = call({"explain", book.path(), "S1"}).out;
  EXPECT_TRUE(has(explained, "site hygienist: overrule own/drift. Reason: looked at")) << explained;
  EXPECT_TRUE(has(explained, "instrument keeper: uphold own/drift. Reason: not convinced")) << explained;
}

TEST(Decide, TakesARuleByItsIdWhereOnlyOneIsMeant) {
  const CalledBook book(judged_text());
  EXPECT_EQ(call(decide(book, "drift")).status, 0);
  EXPECT_TRUE(has(text_of_file(book.file("decisions.csv")), ",own/drift,"));
}

TEST(Decide, TrimsTheBlanksAroundWhatIsGiven) {
  const CalledBook book(judged_text());
  EXPECT_EQ(call(decide(book, "own/drift", "overrule", " site hygienist ", "\n looked at\n")).status, 0);
  EXPECT_TRUE(has(text_of_file(book.file("decisions.csv")), ",site hygienist,S1,own/drift,overrule,looked at\n"));
}

// What is told of a decision that is refused; nothing is written.
std::string refused(const std::vector<std::string>& words, const CalledBook& book) {
  const Called called = call(words);
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.out, "");
  EXPECT_FALSE(std::filesystem::exists(book.file("decisions.csv")));
  return called.err;
}

TEST(Decide, RefusesAnUnknownSampleWithTheNearestOne) {
  BookText text = judged_text();
  text.samples += "QUARRY-12,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  const CalledBook book(text);
  EXPECT_EQ(
      refused(decide(book, "own/drift", "overrule", "site hygienist", "looked at", "QUARY-12"), book),
      "command line: error: the book has no sample 'QUARY-12'; did you mean 'QUARRY-12'? [command/unknown-name]\n");
}

TEST(Decide, RefusesAnUnknownRuleWithTheNearestFinding) {
  const CalledBook book(judged_text());
  EXPECT_EQ(refused(decide(book, "own/drfit"), book),
            "command line: error: there is no rule 'own/drfit' that raised a finding on 'S1'; did you mean "
            "'own/drift'? findings on it are by own/drift [decide/refused]\n");
}

TEST(Decide, RefusesARuleThatRaisedNoFindingOnTheSample) {
  const CalledBook book(judged_text("5 %"));
  EXPECT_EQ(refused(decide(book), book),
            "command line: error: the rule 'own/drift' raised no finding on 'S1'; there are no findings on it "
            "[decide/refused]\n");
}

TEST(Decide, RefusesAnEmptyNameAndAnEmptyReason) {
  const CalledBook book(judged_text());
  EXPECT_EQ(refused(decide(book, "own/drift", "overrule", " ", ""), book),
            "command line: error: --by is empty; name who answers for the decision [decide/refused]\n"
            "command line: error: --reason is empty; say why; others will read it beside the finding "
            "[decide/refused]\n");
}

TEST(Decide, RefusesAReasonThatTheBookReadsAsAnEmptyCell) {
  const CalledBook book(judged_text());
  EXPECT_EQ(refused(decide(book, "own/drift", "overrule", "site hygienist", "none"), book),
            "command line: error: --reason is 'none', which this book reads as an empty cell; write what others are to "
            "read [decide/refused]\n");
}

TEST(Decide, RefusesTextThatDoesNotShowItself) {
  const CalledBook book(judged_text());
  EXPECT_EQ(refused(decide(book, "own/drift", "overrule", "site hygienist", "a\x1b[2Jb"), book),
            "command line: error: --reason holds characters that don't show themselves: 'a\\x1b[2Jb'; write plain "
            "text, in UTF-8 [decide/refused]\n");
  EXPECT_TRUE(has(refused(decide(book, "own/drift", "overrule", "K. \xE9", "b"), book), "'K. \\xe9'"));
}

TEST(Decide, RefusesToRuleOnRecordsThatCannotBeUnderstood) {
  BookText text = judged_text();
  text.readings += "2026-09-21T16:12,post,S1,V1,1.9b0\n";
  const CalledBook book(text);
  const std::string told = refused(decide(book, "book/faulty-records"), book);
  EXPECT_TRUE(has(told, "a record of 'S1' can't be understood; that is not ruled on; mend the record")) << told;
}

TEST(Decide, RefusesARulingThatIsNone) {
  const CalledBook book(judged_text());
  EXPECT_TRUE(has(refused(decide(book, "own/drift", "forgive"), book), "the last word, 'forgive', is no ruling"));
}

// S1 and S2 of batch B1, and S3 of none, are beyond the rule of judged_text; S4 of B1 is not.
BookText four_samples() {
  BookText text = judged_text();
  text.samples = "sample,batch,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 1; i <= 4; ++i) {
    const std::string name = "S" + std::to_string(i);
    const std::string on = "2026-09-2" + std::to_string(i);
    text.samples += name + (i == 3 ? ",," : ",B1,") + "P1," + on + "T08:00," + on + "T16:00\n";
    text.readings += on + "T07:30,pre," + name + ",V1,2.000\n" + on + "T16:10,post," + name + ",V1," +
                     (i == 4 ? "2.000" : "1.950") + "\n";
  }
  return text;
}

std::vector<std::string> uphold(const CalledBook& book, std::vector<std::string> which) {
  which.insert(which.begin(), {"decide", book.path()});
  which.insert(which.end(), {"--by", "keeper", "--reason", "seen"});
  return which;
}

TEST(Decide, TakesManySamplesAtOnce) {
  const CalledBook book(four_samples());
  const Called called = call(uphold(book, {"S1", "S3", "drift", "uphold"}));
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(called.out,
            "decisions.csv:2: uphold own/drift of S1, by keeper, 2026-11-16T12:00+00:00\n"
            "decisions.csv:3: uphold own/drift of S3, by keeper, 2026-11-16T12:00+00:00\n"
            "S1: void\nS3: void\n");
}

TEST(Decide, WritesNoneWhereOneOfManyIsRefused) {
  const CalledBook book(four_samples());
  EXPECT_TRUE(has(refused(uphold(book, {"S1", "S4", "drift", "uphold"}), book), "raised no finding on 'S4'"));
}

TEST(Decide, OfABatchTakesThoseWithTheFinding) {
  const CalledBook book(four_samples());
  EXPECT_EQ(call(uphold(book, {"drift", "uphold", "--batch", "B1"})).status, 0);
  const std::string rows = text_of_file(book.file("decisions.csv"));
  EXPECT_TRUE(has(rows, ",S1,") && has(rows, ",S2,")) << rows;
  EXPECT_FALSE(has(rows, ",S3,") || has(rows, ",S4,")) << rows;
}

TEST(Decide, OfAllLeavesThoseThatAreRuledOnAsTheyAre) {
  const CalledBook book(four_samples());
  EXPECT_EQ(call(uphold(book, {"S2", "drift", "uphold"})).status, 0);
  const Called called = call(uphold(book, {"drift", "overrule", "--all"}));
  EXPECT_TRUE(has(called.out, "S1: void, but counts as valid by decision\nS3: void, but counts as valid by decision\n"))
      << called.out;
  EXPECT_TRUE(has(called.out, "1 sample was ruled on before and left as decided; name one to rule on it anew\n"));
  EXPECT_TRUE(has(call(uphold(book, {"drift", "uphold", "--all"})).err, "all of these samples are ruled on by now"));
}

TEST(Decide, SaysWhatItWouldWriteAndWritesNothing) {
  const CalledBook book(four_samples());
  const Called called = call(uphold(book, {"drift", "uphold", "--all", "--dry-run"}));
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(has(called.out, "would be written: uphold own/drift of S3, by keeper")) << called.out;
  EXPECT_TRUE(has(called.out, "S3: void\nnothing was written\n"));
  EXPECT_EQ(text_of_file(book.file("decisions.csv")), "");
}

TEST(Decide, RefusesToRuleOnNobody) {
  const CalledBook book(four_samples());
  EXPECT_TRUE(has(refused(uphold(book, {"drift", "uphold"}), book), "no sample is named"));
}

TEST(Decisions, TakenAfterTheDayThatStandsForTodayAreNotCountedAndTold) {
  const CalledBook book(judged_text());
  EXPECT_EQ(call(decide(book)).status, 0);
  const Called before = call({"screen", book.path(), "--as-of", "2026-11-15"});
  EXPECT_EQ(before.status, 1);
  EXPECT_EQ(before.err,
            "decisions.csv:2: remark: the decision about 'S1' was taken after 2026-11-15, which stands for today; it "
            "is not counted [decision/later]\n");
  EXPECT_EQ(call({"screen", book.path(), "--as-of", "2026-11-16"}).status, 0);
}

TEST(Decisions, OnUnknownRulesAndSamplesAreTold) {
  BookText text = judged_text();
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n"
      "2026-09-22T10:00,site hygienist,S1,own/drfit,overrule,a\n"
      "2026-09-22T10:00,site hygienist,S11,own/drift,overrule,b\n";
  const CalledBook book(text);
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"screen", book.path()}, std::vector<std::string>{"check", book.path()}}) {
    const Called called = call(words);
    EXPECT_EQ(called.status, 2);
    EXPECT_TRUE(has(called.err, "decisions.csv:2: remark: 'own/drfit' is no rule")) << called.err;
    EXPECT_TRUE(has(called.err,
                    "decisions.csv:3:33: error: the sample 'S11' is in no samples file; did you mean 'S1'? "
                    "[decision/unknown-sample]"))
        << called.err;
  }
}

// Status 2 means that nothing was written.
TEST(Decide, IsDoneAlsoWhereOnlyTheWordsAboutItAreLost) {
  const CalledBook book(judged_text());
  std::ofstream full("/dev/full");
  std::ostringstream err;
  Surroundings surroundings{full, err, false, false, 20773 * Moment{86400}, project_folder(), "0.1.0"};
  const std::vector<std::string> words{"decide", book.path(), "S1",       "own/drift", "uphold",
                                       "--by",   "keeper",    "--reason", "seen"};
  EXPECT_EQ(run_command_line(words, surroundings), 0) << err.str();
  EXPECT_NE(err.str().find("[output/done-unsaid]"), std::string::npos) << err.str();
  EXPECT_NE(text_of_file(book.file("decisions.csv")).find("keeper,S1,own/drift,uphold,seen"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::decide_test

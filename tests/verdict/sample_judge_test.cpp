// SPDX-License-Identifier: MIT
#include "verdict/sample_judge.hpp"

#include <gtest/gtest.h>

#include <utility>

#include "support/book_text.hpp"

namespace driftwarden::sample_judge_test {
namespace {

RuleText drift_within(const std::string& limit) { return {Subject::sample, "drift", "within", {limit}}; }

// Drift of S1 is -2.5 %.
Verdict verdict_under(const RulesText& rules, const BookText& text = {}) {
  return JudgedBook(text, rules).result("S1").verdict;
}

TEST(SampleJudge, IsValidWhereEveryRuleIsMet) {
  JudgedBook book(BookText(), {{drift_within("5 %")}});
  const SampleResult& result = book.result("S1");
  EXPECT_EQ(result.verdict, Verdict::valid);
  EXPECT_TRUE(result.findings.empty());
  ASSERT_EQ(result.kept.size(), 1U);
  EXPECT_EQ(result.kept[0].judgement.outcome, Outcome::met);
}

TEST(SampleJudge, IsTheWorstOfItsFindings) {
  RuleText note = drift_within("1 %");
  note.otherwise = Otherwise::note;
  RuleText qualify = drift_within("1 %");
  qualify.otherwise = Otherwise::qualify;
  const RuleText undecided{Subject::sample, "warm-up", "at_least", {"15 min"}};
  EXPECT_EQ(verdict_under({{note}}), Verdict::valid);
  EXPECT_EQ(verdict_under({{qualify, note}}), Verdict::qualified);
  EXPECT_EQ(verdict_under({{qualify, undecided, note}}), Verdict::undecided);
  EXPECT_EQ(verdict_under({{undecided, drift_within("1 %"), qualify}}), Verdict::void_);
}

TEST(SampleJudge, KeepsFindingsInTheOrderOfTheRules) {
  RuleText note = drift_within("1 %");
  note.otherwise = Otherwise::note;
  JudgedBook book(BookText(), {{note, drift_within("5 %"), drift_within("2 %")}});
  const SampleResult& result = book.result("S1");
  ASSERT_EQ(result.findings.size(), 2U);
  EXPECT_EQ(result.findings[0].rule, 0U);
  EXPECT_EQ(result.findings[1].rule, 2U);
  EXPECT_EQ(result.findings[1].judgement.outcome, Outcome::void_);
}

// 2.000 -> 1.900 L/min is -5.000000000000004 % in binary fractions.
TEST(SampleJudge, OfADriftOfExactlyTheLimitIsValidAndJustBeyondIsVoid) {
  BookText text;
  const auto post = [&](const std::string& flow) {
    text.readings =
        "taken,stage,sample,calibrator,reading "
        "[L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1," +
        flow + "\n";
    return verdict_under({{drift_within("5 %")}}, text);
  };
  EXPECT_EQ(post("1.9001"), Verdict::valid);
  EXPECT_EQ(post("1.900"), Verdict::valid);
  EXPECT_EQ(post("1.8999"), Verdict::void_);
  EXPECT_EQ(post("2.100"), Verdict::valid);
  EXPECT_EQ(post("2.1001"), Verdict::void_);
}

TEST(SampleJudge, HoldsAMissingMeasureToWhatTheRuleSaysOfIt) {
  RuleText rule{Subject::sample, "warm-up", "at_least", {"15 min"}};
  const auto verdict = [&](Absent absent) {
    rule.absent = absent;
    return verdict_under({{rule}});
  };
  EXPECT_EQ(verdict(Absent::undecided), Verdict::undecided);
  EXPECT_EQ(verdict(Absent::void_), Verdict::void_);
  EXPECT_EQ(verdict(Absent::qualify), Verdict::qualified);
  EXPECT_EQ(verdict(Absent::skip), Verdict::valid);
}

TEST(SampleJudge, OfARuleThatMayOrMayNotApplyIsUndecided) {
  RuleText rule = drift_within("5 %");
  rule.where = {{"temperature", {}, 270, {}}};
  EXPECT_EQ(verdict_under({{rule}}), Verdict::undecided);
  rule.where = {{"kind", {"blank"}, {}, {}}};
  EXPECT_EQ(verdict_under({{rule}}), Verdict::valid);
}

// Replicates scatter by 0.01 L/min, so that the drift of -4.8 % is known to about 1.3 %.
BookText scattered(const std::string& guard) {
  BookText text;
  text.settings += "[decision]\nguard = " + guard + "\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty [%]\n"
      "C1,V1,2026-01-05,2,2,2,1\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (const char* reading : {"07:30,pre,S1,V1,1.990", "07:31,pre,S1,V1,2.000", "07:32,pre,S1,V1,2.010",
                              "16:10,post,S1,V1,1.894", "16:11,post,S1,V1,1.904", "16:12,post,S1,V1,1.914"}) {
    text.readings += "2026-09-21T" + std::string(reading) + "\n";
  }
  return text;
}

TEST(SampleJudge, TellsOfARuleThatIsMetWhereTheTrueValueMayWellLieBeyond) {
  JudgedBook book(scattered("0.0"), {{drift_within("5 %"), drift_within("30 %")}});
  const SampleResult& result = book.result("S1");
  EXPECT_EQ(result.verdict, Verdict::valid);
  ASSERT_EQ(result.near.size(), 1U);
  EXPECT_EQ(result.near[0].rule, 0U);
  EXPECT_GT(result.near[0].probability_beyond, 0.2);
  EXPECT_LT(result.near[0].probability_beyond, 0.5);
}

// derived: a two-sided 95 % interval leaves 2.5 % beyond each end; the threshold is stated, and held to from both
// sides.
TEST(SampleJudge, TellsANearMissFromTwoAndAHalfPercentOn) {
  // How likely the true drift lies beyond a limit of so many ten-thousandths of a percent, and whether that is told.
  const auto under = [](int parts) {
    JudgedBook book(scattered("0.0"), {{drift_within(std::to_string(parts / 10000.0) + " %")}});
    const SampleResult& result = book.result("S1");
    return std::pair(result.kept.at(0).probability_beyond, !result.near.empty());
  };
  int near = 50000;
  int far = 500000;
  while (far - near > 1) {
    const int middle = (near + far) / 2;
    (under(middle).first >= 0.025 ? near : far) = middle;
  }
  EXPECT_NEAR(under(near).first, 0.025, 2e-4);
  EXPECT_NEAR(under(far).first, 0.025, 2e-4);
  EXPECT_TRUE(under(near).second);
  EXPECT_FALSE(under(far).second);
}

TEST(SampleJudge, QualifiesWhatIsMetInsideTheGuardBand) {
  JudgedBook book(scattered("1.0"), {{drift_within("5 %"), drift_within("30 %")}});
  const SampleResult& result = book.result("S1");
  EXPECT_EQ(result.verdict, Verdict::qualified);
  ASSERT_EQ(result.findings.size(), 1U);
  EXPECT_EQ(result.findings[0].rule, 0U);
  EXPECT_GT(result.findings[0].judgement.margin, 0);
}

TEST(SampleJudge, HoldsARuleOfSetsToEachSet) {
  JudgedBook book(BookText(), {{{Subject::set, "flow", "at_least", {"1.96 L/min"}}}});
  const SampleResult& result = book.result("S1");
  ASSERT_EQ(result.findings.size(), 1U);
  EXPECT_EQ(result.findings[0].about, 1U);  // the post set
  ASSERT_EQ(result.kept.size(), 1U);
  EXPECT_EQ(result.kept[0].about, 0U);
}

TEST(SampleJudge, HoldsARuleOfReadingsToEachReadingThatCounts) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,,\n"
      "2026-09-21T07:31,pre,S1,V1,0.001,yes,knocked\n"
      "2026-09-21T16:10,post,S1,V1,1.900,,\n";
  JudgedBook book(text, {{{Subject::reading, "indicated", "at_least", {"1.95 L/min"}}}});
  const SampleResult& result = book.result("S1");
  ASSERT_EQ(result.findings.size(), 1U);
  EXPECT_EQ(result.findings[0].about, 2U);
  EXPECT_EQ(result.kept.size(), 1U);
}

TEST(SampleJudge, OfFaultyRecordsIsUndecidedHoldsNoRuleAndNamesTheFault) {
  BookText text;
  text.samples += "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T16:10,post,S1,V1,1.5OO\n"
      "2026-09-21T07:30,pre,S2,V1,2.000\n"
      "2026-09-21T16:10,post,S2,V1,1.500\n";
  JudgedBook book(text, {{drift_within("5 %")}});
  const SampleResult& faulty = book.result("S1");
  EXPECT_EQ(faulty.verdict, Verdict::undecided);
  ASSERT_EQ(faulty.findings.size(), 1U);
  EXPECT_EQ(faulty.findings[0].rule, Finding::faulty_records);
  EXPECT_TRUE(faulty.kept.empty());
  EXPECT_EQ(book.result("S2").verdict, Verdict::void_);  // the rest are judged
}

TEST(SampleJudge, KeepsWhatIsMetOnlyWhereAskedFor) {
  const Book book = book_of(BookText());
  const RuleSet rules = RulesText{{drift_within("5 %")}}.rule_set();
  const Screening screening(book, rules);
  SampleJudge judge(screening);
  EXPECT_TRUE(judge.judge(0).kept.empty());
}

TEST(SampleJudge, KeepsTheStepsToEachReadingOnlyWhereAskedFor) {
  const Book book = book_of(BookText());
  const RuleSet rules = RulesText{}.rule_set();
  const Screening screening(book, rules);
  SampleJudge keeping(screening, true);
  SampleJudge brief(screening);
  EXPECT_EQ(keeping.judge(0).figures->steps.size(), 2U);
  EXPECT_TRUE(brief.judge(0).figures->steps.empty());
}

TEST(SampleJudge, OfSetsAndReadingsThatTheRuleMayOrMayNotBeAboutIsUndecided) {
  for (const auto& [of, measure] : {std::pair(Subject::set, "flow"), std::pair(Subject::reading, "indicated")}) {
    RuleText rule{of, measure, "at_least", {"1 L/min"}};
    rule.where = {{"temperature", {}, 270, {}}};
    JudgedBook book(BookText(), {{rule}});
    const SampleResult& result = book.result("S1");
    ASSERT_EQ(result.findings.size(), 2U) << measure;
    EXPECT_EQ(result.findings[1].about, 1U) << "the second set, and the second reading";
    EXPECT_EQ(result.verdict, Verdict::undecided) << measure;
  }
}

TEST(SampleJudge, CountsTheRulesOfRecordsThatSpeakOfASample) {
  const RuleText serial{Subject::sample, "record.pump-serial", "is", {"yes"}, Otherwise::note};
  JudgedBook book(BookText(), {{drift_within("1 %"), serial}});
  EXPECT_EQ(book.result("S1").findings.size(), 2U);
  EXPECT_EQ(book.result("S1").records_lacking, 1U);
}

// A judge is used for one sample after another, and takes nothing along.
TEST(SampleJudge, OfASampleKnowsNothingOfTheOneBefore) {
  BookText text = scattered("0.0");
  text.samples += "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings +=
      "2026-09-21T07:30,pre,S2,V1,2.000\n2026-09-21T07:31,pre,S2,V1,2.001\n2026-09-21T16:10,post,S2,V1,2.000\n"
      "2026-09-21T16:11,post,S2,V1,2.001\n";
  const RuleText serial{Subject::sample, "record.pump-serial", "is", {"yes"}, Otherwise::note};
  JudgedBook book(text, {{drift_within("1 %"), drift_within("5 %"), serial}});
  EXPECT_EQ(book.result("S1").near.size(), 1U);
  const SampleResult& after = book.result("S2");
  EXPECT_EQ(after.verdict, Verdict::valid);
  EXPECT_EQ(after.findings.size(), 1U);
  EXPECT_EQ(after.near.size(), 0U);
  EXPECT_EQ(after.kept.size(), 2U);
  EXPECT_EQ(after.records_lacking, 1U);
}

// Void by one rule, qualified by another: only a ruling on the first settles the sample.
TEST(SampleJudge, IsSettledWhereSomebodyRuledOnAllThatGaveTheVerdict) {
  const Decision upheld;
  SampleResult result;
  result.verdict = Verdict::void_;
  EXPECT_TRUE(is_settled(result));
  result.findings.resize(3);
  result.findings[0].judgement.outcome = Outcome::void_;
  result.findings[1].judgement.outcome = Outcome::qualified;
  result.findings[2].judgement.outcome = Outcome::void_;
  EXPECT_TRUE(gave_the_verdict(result, result.findings[0]));
  EXPECT_FALSE(gave_the_verdict(result, result.findings[1]));
  result.findings[0].decision = &upheld;
  result.findings[1].decision = &upheld;
  EXPECT_FALSE(is_settled(result));
  result.findings[1].decision = nullptr;
  result.findings[2].decision = &upheld;
  EXPECT_TRUE(is_settled(result));
}

}  // namespace
}  // namespace driftwarden::sample_judge_test

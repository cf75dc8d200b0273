// SPDX-License-Identifier: MIT
#include "verdict/unknown_words.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"

namespace driftwarden::unknown_words_test {
namespace {

// input: flows of an invented book.

// S1 on P1, with a sampler and a method; its flows lie 6 % below 2 L/min.
BookText sampled_with(const std::string& sampler, const std::string& method = "M", const std::string& more = "") {
  BookText text;
  text.samples = "sample,kind,pump,sampler,method,nominal [L/min],started,stopped\nS1,sample,P1," + sampler + "," +
                 method + ",,2026-09-21T08:00,2026-09-21T16:00\n" + more;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,1.88\n"
      "2026-09-21T16:10,post,S1,V1,1.88\n";
  return text;
}

RuleText flow_of(const std::string& field, const std::string& word) {
  RuleText rule{Subject::sample, "flow", "at_least", {"1.9 L/min"}};
  rule.where = {{field, {word}, {}, {}}};
  return rule;
}

const RulesText by_sampler{{flow_of("sampler", "impactor")}, {sampler("impactor", 2.0)}};

std::string finding_of(const BookText& text, const RulesText& rules) {
  JudgedBook book(text, rules);
  const SampleResult& result = book.result("S1");
  std::string said(to_text(result.verdict));
  for (const Finding& finding : result.findings) said += "; " + message_of(book.screening(), result, finding);
  return said;
}

std::string told_of(const BookText& text, const RulesText& rules) {
  JudgedBook book(text, rules);
  std::string said;
  for (const Diagnostic& one : unknown_words(book.book(), book.screening().words())) said += to_text(one) + "\n";
  return said;
}

std::vector<std::string> remarks_in(const BookText& text, const RulesText& rules) {
  JudgedBook book(text, rules);
  return remarks_of(book.screening(), book.result("S1"));
}

TEST(UnknownWords, OfAMisspeltSamplerQualifyTheSampleAndNameTheRulesItEscaped) {
  EXPECT_EQ(finding_of(sampled_with("impactor"), by_sampler),
            "void; The flow that the volume is formed with is 1.880 L/min; the rule asks for at least 1.9 L/min");
  EXPECT_EQ(finding_of(sampled_with("impacter"), by_sampler),
            "qualified; Neither a pack nor book.toml describes the sampler 'impacter' (did you mean "
            "'impactor'?); so these rules could not be applied: own/flow");
}

TEST(UnknownWords, OfAMethodQualifyAlike) {
  const RulesText rules{{flow_of("method", "method 7")}};
  EXPECT_EQ(finding_of(sampled_with("", "method 8"), rules),
            "qualified; Neither a pack nor book.toml describes the method 'method 8' (did you mean "
            "'method 7'?); so these rules could not be applied: own/flow");
  EXPECT_EQ(finding_of(sampled_with("", "method 7"), rules),
            "void; The flow that the volume is formed with is 1.880 L/min; the rule asks for at least 1.9 L/min");
}

TEST(UnknownWords, AreToldOnceWithTheFirstSampleAndTheNearestName) {
  const std::string more = "S2,sample,P2,impacter,M,,2026-09-21T08:00,2026-09-21T16:00\n";
  EXPECT_EQ(told_of(sampled_with("impacter", "M", more), by_sampler),
            "samples.csv:2: remark: Neither a pack nor book.toml describes the sampler 'impacter', in 2 "
            "samples; did you mean 'impactor'?; if it is meant, a [sampler.'impacter'] entry with a title in book.toml "
            "says so [sample/unknown-sampler]\n");
}

TEST(UnknownWords, OfThePlanAreToldToo) {
  BookText text = sampled_with("impactor");
  text.plan =
      "sample,batch,kind,sampler,method\nS1,B1,,impacter,\nS7,B1,,impacter,method 8\nS8,B1,,impacter,\n"
      "K1,B1,blank,impacter,\nS9,B1,,impactor,\nS10,B1,,,\n";
  EXPECT_EQ(told_of(text, by_sampler),
            "plan.csv:3: remark: Neither a pack nor book.toml describes the sampler 'impacter', in 2 planned samples; "
            "did you mean 'impactor'?; if it is meant, a [sampler.'impacter'] entry with a title in book.toml says so "
            "[plan/unknown-sampler]\n");
  const std::string by_method = told_of(text, {{flow_of("method", "method 7")}, {sampler("impacter", 2.0)}});
  EXPECT_NE(by_method.find("plan.csv:3: remark: Neither a pack nor book.toml describes the method 'method 8', in 1 "
                           "planned sample; did you mean 'method 7'?"),
            std::string::npos)
      << by_method;
}

TEST(UnknownWords, LoseTheNominalFlowThatTheSamplerWouldGive) {
  const RulesText rules{{{Subject::sample, "pre.deviation", "within", {"5 %"}, Otherwise::void_, Absent::skip}},
                        {sampler("impactor", 2.0)}};
  EXPECT_EQ(finding_of(sampled_with("impactor"), rules),
            "void; Before sampling the flow was 6.0 % below the nominal flow (1.880 L/min, nominal 2.000 L/min); the "
            "limit is 5 %");
  EXPECT_EQ(finding_of(sampled_with("impacter"), rules),
            "qualified; Neither a pack nor book.toml describes the sampler 'impacter' (did you mean "
            "'impactor'?); so these rules could not be applied: own/pre.deviation");
  BookText stated = sampled_with("impacter");
  stated.samples.replace(stated.samples.find("M,,"), 3, "M,2,");  // the sample's own nominal flow
  EXPECT_EQ(finding_of(stated, rules),
            "void; Before sampling the flow was 6.0 % below the nominal flow (1.880 L/min, nominal 2.000 L/min); the "
            "limit is 5 %");
}

// The names of the rules that would be held to S1 with the sampler "impacter" if somebody described it.
std::string left_out(const RuleText& rule, const std::string& nominal = "") {
  BookText text = sampled_with("impacter");
  text.samples.replace(text.samples.find("M,,"), 3, "M," + nominal + ",");
  JudgedBook book(text, {{rule}, {sampler("impactor", 2.0)}});
  book.result("S1");
  const SampleContext context = book.screening().context(book.figures("S1"), {});
  std::string names;
  for (const Rule* one : rules_left_out(context, Selector::sampler)) names += one->full_name();
  return names;
}

TEST(UnknownWords, EscapeTheRulesThatNothingElseKeepsFromTheSample) {
  RuleText rule = flow_of("sampler", "impactor");
  EXPECT_EQ(left_out(rule), "own/flow");
  rule.where.push_back({"pump", {"P1"}, {}, {}});
  EXPECT_EQ(left_out(rule), "own/flow");
  rule.where.back().words = {"P2"};
  EXPECT_EQ(left_out(rule), "") << "the sample is on P1";
  rule.where = {{"pump", {"P1"}, {}, {}}};
  EXPECT_EQ(left_out(rule), "") << "it asks for no sampler, and is held to the sample";
}

TEST(UnknownWords, EscapeRulesByTheNominalFlowOnlyWhereNobodyWroteOne) {
  RuleText rule{Subject::sample, "flow", "at_least", {"1.9 L/min"}};
  rule.where = {{"nominal", {}, 1, {}}};
  EXPECT_EQ(left_out(rule), "own/flow");
  EXPECT_EQ(left_out(rule, "2"), "");
  EXPECT_EQ(left_out(rule, "0.5"), "") << "held to what is written, the rule isn't about the sample";
}

// Whatever is written there instead, the rule is held to the sample.
TEST(UnknownWords, KeepNoRuleFromASampleThatLeavesOthersOut) {
  RuleText rule{Subject::sample, "flow", "at_least", {"1.9 L/min"}};
  rule.where = {{"sampler", {"impactor"}, {}, {}, true}};
  EXPECT_EQ(left_out(rule), "");
}

// A rule of sets says of each set whether it is about it; of the sample it asks for the sampler alone.
TEST(UnknownWords, EscapeRulesOfSetsToo) {
  RuleText rule{Subject::set, "flow", "at_least", {"1.9 L/min"}};
  rule.where = {{"stage", {"pre"}, {}, {}}, {"sampler", {"impactor"}, {}, {}}};
  EXPECT_EQ(left_out(rule), "own/flow");
  rule.where.pop_back();
  EXPECT_EQ(left_out(rule), "");
}

TEST(UnknownWords, AreEndedByADescriptionWithNoMoreThanATitle) {
  RulesText rules = by_sampler;
  rules.samplers.push_back(sampler("open-face cassette", std::nullopt));
  EXPECT_EQ(finding_of(sampled_with("open-face cassette"), rules), "valid");
  EXPECT_EQ(told_of(sampled_with("open-face cassette"), rules), "");
}

TEST(UnknownWords, AreNoneOfAnEmptyCellOrABlank) {
  EXPECT_EQ(finding_of(sampled_with(""), by_sampler), "valid");
  EXPECT_EQ(told_of(sampled_with("impactor", "M", "B,blank,,impacter,,,,\n"), by_sampler), "");
  JudgedBook book(sampled_with("impactor", "M", "B,blank,,impacter,,,,\n"), by_sampler);
  EXPECT_EQ(book.result("B").verdict, Verdict::valid);
}

TEST(UnknownWords, ThatNoRuleLeansOnAreARemark) {
  const RulesText rules{{{Subject::sample, "drift", "within", {"5 %"}}}};
  EXPECT_EQ(finding_of(sampled_with("impacter"), rules), "valid");
  EXPECT_EQ(remarks_in(sampled_with("impacter"), rules).back(),
            "Neither a pack nor book.toml describes the sampler 'impacter'");
  EXPECT_NE(told_of(sampled_with("impacter"), rules), "");
}

TEST(UnknownWords, OfMethodsAreAskedOnlyWhereSomebodyNamesOne) {
  EXPECT_EQ(told_of(sampled_with("impactor", "whatever"), by_sampler), "");
}

TEST(UnknownWords, AreRuledOnLikeAnyFinding) {
  BookText text = sampled_with("impacter");
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n"
      "2026-09-22T09:00,site hygienist,S1,book/unknown-sampler,overrule,A cassette of ours.\n";
  JudgedBook book(text, by_sampler);
  EXPECT_EQ(book.result("S1").verdict, Verdict::qualified);
  EXPECT_EQ(book.result("S1").standing, Verdict::valid);
  EXPECT_TRUE(decisions_on_unknown_rules(book.book(), book.screening().rules()).empty());
}

}  // namespace
}  // namespace driftwarden::unknown_words_test

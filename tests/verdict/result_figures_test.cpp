// SPDX-License-Identifier: MIT
#include "verdict/result_figures.hpp"

#include <gtest/gtest.h>

#include "support/laboratory_book.hpp"
#include "verdict/message.hpp"

namespace driftwarden::result_figures_test {
namespace {

// input: results of a laboratory.
const std::string by_amount = "sample,analyte,amount [mg],limit [mg],expanded uncertainty [%]\n";
const std::string in_fibres = "sample,analyte,amount [fibres],limit [fibres]\n";

RuleText of_result(std::string_view measure, std::string_view form, const std::string& value,
                   Absent absent = Absent::undecided) {
  return {Subject::result, measure, form, {value}, Otherwise::void_, absent};
}

// What a rule says to S1: the outcome of its first finding, and its message.
std::string said(const std::string& results, const RuleText& rule, bool takes_off = true) {
  JudgedBook book(laboratory_book(results),
                  {{rule}, {}, takes_off ? blanks_taken_off() : std::vector<PracticeChoice>()});
  const SampleResult& result = book.result("S1");
  if (result.findings.empty()) return "valid";
  const Finding& finding = result.findings.front();
  return std::string(to_text(finding.judgement.outcome)) + ": " + message_of(book.screening(), result, finding);
}

TEST(ResultFigures, AreHeldToARuleOnTheLimitAndJustBeyond) {
  EXPECT_EQ(said(weighed, of_result("mass.net", "at_least", "0.526 mg")), "valid");
  EXPECT_EQ(said(weighed, of_result("mass.net", "at_least", "0.5261 mg")),
            "void: Less the blanks there is 0.5260 mg of dust; the rule asks for at least 0.5261 mg");
  EXPECT_EQ(said(weighed, of_result("mass", "at_most", "532 µg")), "valid");
  EXPECT_EQ(said(weighed, of_result("mass", "at_most", "0.5 mg")),
            "void: The laboratory found 0.5320 mg of dust; the limit is 0.5 mg");
  EXPECT_EQ(said(weighed, of_result("concentration", "at_least", "0.6 mg/m3")),
            "void: The concentration of dust is 0.5928 mg/m3; the rule asks for at least 0.6 mg/m3");
  EXPECT_EQ(said(weighed, of_result("blank.mean", "at_most", "0.005 mg")),
            "void: The field blanks of batch B carry 0.006000 mg of dust on average; the limit is 0.005 mg");
}

TEST(ResultFigures, CountBlanksAndSetThemBesideTheSamples) {
  EXPECT_EQ(said(weighed, of_result("blank.count", "at_least", "2")), "valid");
  EXPECT_EQ(said(weighed, of_result("blank.count", "at_least", "3")),
            "void: 2 field blanks of batch B have a result of dust; the rule asks for at least 3");
  EXPECT_EQ(said(by_amount + "S1,dust,0.5,,\n", of_result("blank.count", "at_least", "2")),
            "void: No field blank of batch B has a result of dust; the rule asks for at least 2");
  EXPECT_EQ(said(weighed, of_result("blank.share", "at_least", "200 %")), "valid");
  EXPECT_EQ(said(by_amount + "S1,dust,0.5,,\n", of_result("blank.share", "at_least", "10 %")),
            "void: Batch B has no field blank for its results of dust; the rule asks for at least 10 %");
}

TEST(ResultFigures, TellABlankAboveItsLimit) {
  const RuleText rule = of_result("blank.above-limit", "is", "no");
  const auto blank_of = [](const std::string& cells) { return by_amount + "S1,dust,0.5,,\nB1,dust," + cells + ",\n"; };
  EXPECT_EQ(said(blank_of("0.03,0.03"), rule), "valid");
  EXPECT_EQ(said(blank_of("<0.03,"), rule), "valid");
  EXPECT_EQ(said(blank_of("0.031,0.03"), rule),
            "void: A field blank carries dust above its limit: B1 (0.031 mg, limit 0.03 mg)");
  EXPECT_EQ(said(blank_of("0.031,"), rule),
            "undecided: Whether a field blank carries more dust than the limit can't be said: no limit of the "
            "laboratory is on record");
  EXPECT_EQ(said(by_amount + "S1,dust,0.5,,\n", rule),
            "undecided: Whether a field blank carries more dust than the limit can't be said: no field blank of its "
            "batch has a result of it");
}

TEST(ResultFigures, OfFibresHaveNoMassButAllElse) {
  const std::string fibres = in_fibres + "S1,fibres,42000,1100\nB1,fibres,1200,1100\nB2,fibres,<1100,\n";
  EXPECT_EQ(said(fibres, of_result("mass.net", "at_least", "0.1 mg")),
            "undecided: How much fibres there is less the blanks is not known: fibres were counted, and no mass is "
            "stated");
  EXPECT_EQ(said(fibres, of_result("concentration", "at_least", "0.1 mg/m3", Absent::skip)), "valid");
  EXPECT_EQ(said(fibres, of_result("blank.above-limit", "is", "no")),
            "void: A field blank carries fibres above its limit: B1 (1200 fibres, limit 1100 fibres)");
  EXPECT_EQ(said(fibres, of_result("detected", "is", "yes")), "valid");
}

TEST(ResultFigures, BelowTheLimitAreMissingWithTheReason) {
  const std::string less = by_amount + "S1,dust,<0.03,,\n";
  EXPECT_EQ(said(less, of_result("detected", "is", "yes")),
            "void: What there is of dust is less than the laboratory's limit");
  EXPECT_EQ(said(less, of_result("mass", "at_least", "0.1 mg")),
            "undecided: How much dust the laboratory found is not known: it is less than the laboratory's limit");
  EXPECT_EQ(said(less, of_result("concentration", "at_least", "1 mg/m3")),
            "undecided: The concentration of dust is not known: it is less than the laboratory's limit");
  EXPECT_EQ(said(by_amount + "S1,dust,0.5,,\n", of_result("detected", "is", "yes")),
            "undecided: Whether what there is of dust reaches the laboratory's limit can't be said: no limit of the "
            "laboratory is on record");
  EXPECT_EQ(said(by_amount + "S1,dust,0.5,,\n", of_result("mass.net", "at_least", "1 mg")),
            "undecided: How much dust there is less the blanks is not known: no field blank of its batch has a result "
            "of it");
}

TEST(ResultFigures, SayHowWellTheyAreKnown) {
  EXPECT_EQ(said(weighed, of_result("concentration.uncertainty", "at_most", "1 %")).substr(0, 45),
            "void: The concentration of dust is known to 5");
  EXPECT_EQ(said(by_amount + "S1,dust,0.5,,\n", of_result("concentration.uncertainty", "at_most", "30 %"), false),
            "undecided: How well the concentration of dust is known is not stated: of what it is formed of not every "
            "uncertainty is stated");
  JudgedBook book(laboratory_book(), {{of_result("mass.net", "at_least", "0.1 mg")}, {}, blanks_taken_off()});
  const SampleResult& result = book.result("S1");
  const ResultContext context{book.book(), result.results.at(0)};
  EXPECT_EQ(result_known(context, ResultMeasure::mass_net).u, result.results[0].of_net.u);
  EXPECT_EQ(result_known(context, ResultMeasure::mass).u, result.results[0].of_found.u);
  EXPECT_EQ(result_known(context, ResultMeasure::concentration).expanded, result.results[0].of_concentration.expanded);
  // derived: blanks of 0.007 and 0.005 mg have s = √2 / 1000, and their mean u = 1 / 1000.
  EXPECT_NEAR(result_known(context, ResultMeasure::blank_mean).u, 0.001, 1e-12);
  EXPECT_FALSE(result_known(context, ResultMeasure::blank_count).is_stated);
}

TEST(ResultFigures, CiteTheRowsOfTheResultAndOfItsBlanks) {
  const auto cited = [](std::string_view measure) {
    JudgedBook book(laboratory_book(), {{of_result(measure, "at_least", "1 mg")}, {}, blanks_taken_off()});
    const SampleResult& result = book.result("S1");
    std::string lines;
    for (const Place& place : places_of(book.screening(), result, result.findings.at(0))) lines += to_text(place) + " ";
    return lines + measure_name(book.screening(), result, result.findings.at(0));
  };
  EXPECT_EQ(cited("mass"), "results.csv:2 mass of dust");
  EXPECT_EQ(cited("mass.net"), "results.csv:2 results.csv:3 results.csv:4 mass.net of dust");
}

TEST(ResultFigures, GoByTheAnalyteAndWhatIsWrittenOfTheSample) {
  RuleText rule = of_result("blank.count", "at_least", "3");
  rule.where = {{"analyte", {"quartz"}, {}, {}}};
  EXPECT_EQ(said(weighed, rule), "valid");
  rule.where = {{"analyte", {"dust"}, {}, {}}, {"batch", {"B"}, {}, {}}};
  EXPECT_NE(said(weighed, rule), "valid");
}

TEST(ResultFigures, GoByWhetherAMassWasFoundOrFibres) {
  RuleText rule = of_result("blank.count", "at_least", "3");
  rule.where = {{"amount", {"fibres"}, {}, {}}};
  EXPECT_EQ(said(weighed, rule), "valid");
  EXPECT_NE(said(in_fibres + "S1,fibres,42000,1100\n", rule), "valid");
  rule.where = {{"amount", {"mass"}, {}, {}}};
  EXPECT_NE(said(weighed, rule), "valid");
}

// A row that names no sample may be this one's, or its blank's.
TEST(ResultFigures, MakeEverySampleUndecidedWhereSomeWereLost) {
  const RuleText rule = of_result("blank.count", "at_least", "1");
  EXPECT_EQ(said(by_amount + "S1,dust,0.5,,\nB1,dust,0.01,,\nB9,dust,0.9,,\n", rule).substr(0, 9), "undecided");
  EXPECT_EQ(said(by_amount + "B9,dust,0.9,,\n", rule).substr(0, 9), "undecided");
}

// own input: blanks of 0.05 mg, of which one was reported on the 5th.
TEST(ResultFigures, AreNotRuledOnByWhoDidNotKnowThem) {
  BookText text = laboratory_book(
      "sample,analyte,amount [mg],limit [mg],reported\nS1,dust,0.5,0.03,2026-10-01\nB1,dust,0.05,0.03,2026-10-05\n");
  for (const auto& [day, stands] : {std::pair("2026-10-04", Verdict::void_), {"2026-10-05", Verdict::valid}}) {
    text.decisions =
        "decided,by,subject,rule,ruling,reason\n" + std::string(day) + "T09:00,A,S1,own/blank.above-limit,overrule,b\n";
    JudgedBook book(text, {{of_result("blank.above-limit", "is", "no")}});
    EXPECT_EQ(book.result("S1").standing, stands) << day;
  }
}

TEST(ResultFigures, OfABlankAreHeldToNoRule) {
  JudgedBook book(laboratory_book(), {{of_result("blank.count", "at_least", "9")}});
  EXPECT_EQ(book.result("B1").verdict, Verdict::valid);
  EXPECT_EQ(book.result("B1").results.size(), 1U);
  EXPECT_EQ(book.result("S1").verdict, Verdict::void_);
}

TEST(ResultFigures, MakeASampleUndecidedWhereTheirRowCanNotBeUnderstood) {
  const std::string begin = "undecided: A record that the sample leans on can't be understood: results.csv:";
  const RuleText rule = of_result("blank.count", "at_least", "9");
  const std::string own = said(by_amount + "S1,dust,x,,\nB1,dust,0.01,,\n", rule);
  const std::string of_blank = said(by_amount + "S1,dust,0.5,,\nB1,dust,x,,\n", rule);
  EXPECT_EQ(own.substr(0, begin.size() + 4), begin + "2:9:");
  EXPECT_EQ(of_blank.substr(0, begin.size() + 4), begin + "3:9:");
}

std::string said_of_weighing(const RuleText& rule, const std::string& results = weighed_on_balance,
                             std::vector<PracticeChoice> practice = {}) {
  JudgedBook book(weighing_book(results), {{rule}, {}, std::move(practice)});
  const SampleResult& result = book.result("S1");
  if (result.findings.empty()) return "valid";
  const Finding& finding = result.findings.front();
  return std::string(to_text(finding.judgement.outcome)) + ": " + message_of(book.screening(), result, finding);
}
std::string weighed_on(const std::string& before, const std::string& after) {
  return "sample,analyte,before [mg],after [mg],balance,weighed before,weighed after\nS1,dust,15,16,MB-2," + before +
         "," + after + "\n";
}

TEST(ResultFigures, TellABalanceWithoutACertificateInForce) {
  const RuleText rule = of_result("balance.certificate.missing", "is", "no");
  EXPECT_EQ(said_of_weighing(rule), "valid");
  EXPECT_EQ(said_of_weighing(rule, weighed_on("2025-09-01", "2026-09-28")), "valid");
  EXPECT_EQ(said_of_weighing(rule, weighed_on("2025-08-31", "2026-09-28")),
            "void: MB-2 had no certificate in force when the dust was weighed");
  EXPECT_EQ(
      said_of_weighing(rule, weighed_on("", "")),
      "undecided: Whether a certificate of the balance was in force is not known: it was not weighed on a balance "
      "of instruments.csv, or nobody says when");
}

// M1 was due on 2026-09-20, and M2 followed on the 21st.
TEST(ResultFigures, TellABalanceThatWasOverdue) {
  const RuleText rule = of_result("balance.overdue", "at_most", "0 d");
  EXPECT_EQ(said_of_weighing(rule, weighed_on("2026-09-01", "2026-09-19")), "valid");
  EXPECT_EQ(said_of_weighing(rule, weighed_on("2026-09-01", "2026-09-20")), "valid");
  EXPECT_EQ(said_of_weighing(rule, weighed_on("2026-09-01", "2027-09-21")),
            "void: The dust was weighed 1 day after the recalibration of MB-2 was due");
}

TEST(ResultFigures, HoldTheControlFiltersToARuleOnTheLimitAndJustBeyond) {
  EXPECT_EQ(said_of_weighing(of_result("control.change", "within", "0.004 mg")), "valid");
  EXPECT_EQ(said_of_weighing(of_result("control.change", "within", "0.0039 mg")),
            "void: A control filter of batch B gained 0.004000 mg; the limit is 0.0039 mg");
  EXPECT_EQ(said_of_weighing(of_result("control.mean", "within", "3 µg")), "valid");
  EXPECT_EQ(said_of_weighing(of_result("control.mean", "within", "0.002 mg")),
            "void: The control filters of batch B gained 0.003000 mg on average; the limit is 0.002 mg");
  EXPECT_EQ(said_of_weighing(of_result("control.count", "at_least", "2")), "valid");
  EXPECT_EQ(said_of_weighing(of_result("control.count", "at_least", "3")),
            "void: 2 control filters were weighed with the dust of batch B; the rule asks for at least 3");
  EXPECT_EQ(said_of_weighing(of_result("control.count", "at_least", "1"), weighed_on("", "2026-09-28")),
            "void: No control filter was weighed with the dust of batch B; the rule asks for at least 1");
  EXPECT_EQ(said_of_weighing(of_result("control.mean", "within", "1 mg"), weighed_on("", "2026-09-28")),
            "undecided: How the control filters changed is not known: no control filter was weighed with its batch");
}

TEST(ResultFigures, SayThatControlFiltersAreLackingThatAreToBeTakenOff) {
  EXPECT_EQ(
      said_of_weighing(of_result("mass.net", "at_least", "1 mg"), weighed_on("", "2026-09-28"),
                       {practice("control_correction", "mean")}),
      "undecided: How much dust there is less the control filters is not known: no control filter was weighed with "
      "its batch");
}

// derived: changes of 0.002 and 0.004 mg have s = √2 / 1000, and their mean u = 1 / 1000.
TEST(ResultFigures, CiteTheControlFiltersAndKnowTheirMean) {
  JudgedBook book(weighing_book(), {{of_result("control.mean", "at_least", "1 mg")}});
  const SampleResult& result = book.result("S1");
  const ResultContext context{book.book(), result.results.at(0)};
  EXPECT_NEAR(result_known(context, ResultMeasure::control_mean).u, 0.001, 1e-12);
  std::string lines;
  for (const Place& place : places_of(book.screening(), result, result.findings.at(0))) lines += to_text(place) + " ";
  EXPECT_EQ(lines, "results.csv:2 results.csv:4 results.csv:5 ");
}

}  // namespace
}  // namespace driftwarden::result_figures_test

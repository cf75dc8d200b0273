// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/message.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "support/book_text.hpp"

namespace driftwarden::message_test {
namespace {

// input: figures to be told.

std::string message(const RuleText& rule, const BookText& text = {}) {
  JudgedBook book(text, {{rule}});
  const SampleResult& result = book.result("S1");
  return result.findings.empty() ? "" : message_of(book.screening(), result, result.findings.front());
}

std::vector<std::string> places(const RuleText& rule, const BookText& text = {}) {
  JudgedBook book(text, {{rule}});
  const SampleResult& result = book.result("S1");
  std::vector<std::string> texts;
  if (result.findings.empty()) return texts;
  for (const Place& place : places_of(book.screening(), result, result.findings.front()))
    texts.push_back(to_text(place));
  return texts;
}

BookText with_readings(const std::string& rows) {
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n" + rows;
  return text;
}

RuleText of_sample(std::string_view measure, std::string_view form, const std::string& value) {
  return {Subject::sample, measure, form, {value}};
}

// A void by how a pack reads its clause says so; a clause's own void and a mere remark don't.
TEST(Message, SaysWhereAVoidIsHowThePackReadsAClause) {
  const auto said = [](Otherwise otherwise) {
    const Book book = book_of(BookText());
    RuleSet rules = RulesText{{{Subject::sample, "drift", "within", {"1 %"}, otherwise}}}.rule_set();
    rules.rules.front().after = "Clause 7";
    const Screening screening(book, rules);
    SampleJudge judge(screening);
    const SampleResult& result = judge.judge(0);
    return message_of(screening, result, result.findings.front());
  };
  EXPECT_EQ(said(Otherwise::void_), "drift -2.5 % is not within 1 %; that it voids is how the pack reads Clause 7");
  EXPECT_EQ(said(Otherwise::qualify), "drift -2.5 % is not within 1 %");
}

TEST(FigureText, HasTheMeasuresUnitAndTheDecimalsOfAPerson) {
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), -0.06238, -0.05), "-6.2 %");
  EXPECT_EQ(figure_text(of_sample("flow", "at_least", "2 L/min").rule(), 1.98765, 2), "1.988 L/min");
  EXPECT_EQ(figure_text(of_sample("minutes", "at_least", "3 h").rule(), 179, 180), "179.0 min");
  EXPECT_EQ(figure_text(of_sample("pre.age", "at_most", "24 h").rule(), 1500, 1440), "25.0 h");
  EXPECT_EQ(figure_text(of_sample("calibrator.overdue", "at_most", "0 d").rule(), 23040, 0), "16.0 d");
  EXPECT_EQ(figure_text(of_sample("pre.count", "at_least", "3").rule(), 2, 3), "2");
  EXPECT_EQ(figure_text(of_sample("volume", "at_least", "400 L").rule(), 372.268, 400), "372.3 L");
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), missing, missing), "missing");
}

TEST(FigureText, HasTheUnitOfAnAbsoluteLimit) {
  EXPECT_EQ(figure_text(of_sample("drift", "within", "100 mL/min").rule(), -0.125, -0.1), "-125.000 mL/min");
}

// Never rounded to the other side of its limit, nor onto it.
TEST(FigureText, ShowsOnWhichSideOfTheLimitItLies) {
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), -0.0504, -0.05), "-5.04 %");
  EXPECT_EQ(figure_text(of_sample("drift", "within", "5 %").rule(), 0.0500004, 0.05), "5.00004 %");
  EXPECT_EQ(figure_text(of_sample("volume", "at_least", "400 L").rule(), 399.97, 400), "399.97 L");
  EXPECT_EQ(figure_text(of_sample("volume", "at_most", "12340 L").rule(), 12343, 12340), "12343 L");
}

TEST(Message, TellsTheFigureAndTheLimit) {
  EXPECT_EQ(message(of_sample("drift", "within", "2 %")), "drift -2.5 % is not within 2 %");
  EXPECT_EQ(message(of_sample("minutes", "at_least", "500 min")), "minutes 480.0 min is not at least 500 min");
}

TEST(Message, TellsTheWordAndTheRule) {
  BookText text = with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T16:10,post,S1,V2,2\n");
  EXPECT_EQ(message(of_sample("calibrator.same", "is", "yes"), text), "calibrator.same is no; the rule: is yes");
}

TEST(Message, TellsThatAWordIsMissing) {
  EXPECT_EQ(message(of_sample("fault", "is", "no")), "fault is missing: the book does not say");
}

TEST(Message, TellsWhyAFigureIsMissing) {
  const RuleText drift = of_sample("drift", "within", "5 %");
  EXPECT_EQ(message(drift, with_readings("")), "drift is missing: no readings were found before or after it");
  EXPECT_EQ(message(drift, with_readings("2026-09-21T16:10,post,S1,V1,2\n")),
            "drift is missing: no reading was found before it");
  EXPECT_EQ(message(drift, with_readings("2026-09-21T07:30,pre,S1,V1,2\n")),
            "drift is missing: no reading was found after it");
}

TEST(Message, DoesNotBlameReadingsForAFigureThatNeedsNone) {
  EXPECT_EQ(message(of_sample("warm-up", "at_least", "15 min"), with_readings("")),
            "warm-up is missing: the book does not say");
}

TEST(Message, TellsThatNobodyCanSayWhetherTheRuleApplies) {
  RuleText rule = of_sample("drift", "within", "5 %");
  rule.where = {{"temperature", {}, 273.15, {}}};
  EXPECT_EQ(message(rule), "whether the rule applies can't be said: temperature is missing");
}

TEST(Message, TellsWhatACalibratorsReadingsLack) {
  BookText text = with_readings("2026-09-21T07:30,pre,S1,R1,2\n2026-09-21T16:10,post,S1,R1,2\n");
  const auto lack = [&](const std::string& heading, const std::string& instrument, const std::string& reading) {
    text.instruments = "instrument,kind,principle" + heading + "\nP1,pump,\nR1,calibrator," + instrument + "\n";
    if (heading.empty()) text.instruments = "instrument,kind,principle\nP1,pump,\nR1,calibrator," + instrument + "\n";
    text.certificates.clear();
    text.readings =
        "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n2026-09-21T07:30,pre,S1,R1,2," +
        reading + "\n2026-09-21T16:10,post,S1,R1,2," + reading + "\n";
    return message(of_sample("drift", "within", "5 %"), text);
  };
  EXPECT_EQ(lack("", "rotameter", "20,100"), "drift is missing: R1 lacks its scale conditions in instruments.csv");
  EXPECT_EQ(lack("", "mass", ","), "drift is missing: the readings of R1 lack a temperature");
  EXPECT_EQ(lack("", "mass", "20,"), "drift is missing: the readings of R1 lack a pressure");
}

TEST(Message, NamesTheSetOrTheReading) {
  EXPECT_EQ(message({Subject::set, "flow", "at_least", {"1.96 L/min"}}),
            "flow of the post set 1.950 L/min is not at least 1.96 L/min");
  EXPECT_EQ(message({Subject::reading, "indicated", "at_least", {"1.96 L/min"}}),
            "indicated of the reading at readings.csv:3 1.950 L/min is not at least 1.96 L/min");
}

TEST(Message, NamesTheFaultOfTheRecords) {
  EXPECT_EQ(message(of_sample("drift", "within", "5 %"), with_readings("2026-09-21T07:30,pre,S1,V1,2.O\n")),
            "not judged, for a record it leans on can't be understood: readings.csv:2:28: '2.O' is not a number");
}

using Places = std::vector<std::string>;

TEST(Places, OfADriftAreTheReadingsOfBothSets) {
  EXPECT_EQ(places(of_sample("drift", "within", "2 %")), (Places{"readings.csv:2", "readings.csv:3"}));
}

TEST(Places, OfOneSetAreItsReadings) {
  EXPECT_EQ(places(of_sample("pre.count", "at_least", "3")), Places{"readings.csv:2"});
  EXPECT_EQ(places(of_sample("post.count", "at_least", "3")), Places{"readings.csv:3"});
}

TEST(Places, OfATimeAreTheSample) {
  EXPECT_EQ(places(of_sample("minutes", "at_least", "10 h")), Places{"samples.csv:2"});
}

TEST(Places, OfAVolumeAreTheSampleAndBothSets) {
  EXPECT_EQ(places(of_sample("volume", "at_least", "9999 L")),
            (Places{"samples.csv:2", "readings.csv:2", "readings.csv:3"}));
}

TEST(Places, OfAFieldDeviationAreTheReadingsDuringSamplingToo) {
  const BookText text =
      with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T12:00,field,S1,V1,1.8\n2026-09-21T16:10,post,S1,V1,2\n");
  EXPECT_EQ(places(of_sample("field.deviation", "within", "5 %"), text), (Places{"readings.csv:2", "readings.csv:3"}));
}

// Which records stand behind a figure is said measure by measure: of the sample (s), before (b), during (d), after (a).
TEST(Places, OfEachMeasureAreTheRecordsItComesFrom) {
  const BookText text =
      with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T12:00,field,S1,V1,1.8\n2026-09-21T16:10,post,S1,V1,2\n");
  JudgedBook book(text, {{of_sample("drift", "within", "2 %")}});
  const SampleResult& result = book.result("S1");
  using M = SampleMeasure;
  const std::vector<std::pair<M, std::string>> expected{{M::drift, "ba"},
                                                        {M::pre_flow, "b"},
                                                        {M::post_flow, "a"},
                                                        {M::pre_count, "b"},
                                                        {M::post_count, "a"},
                                                        {M::pre_rsd, "b"},
                                                        {M::post_rsd, "a"},
                                                        {M::pre_deviation, "sb"},
                                                        {M::post_deviation, "sa"},
                                                        {M::pre_age, "sb"},
                                                        {M::post_age, "sa"},
                                                        {M::field_count, "d"},
                                                        {M::field_deviation, "bd"},
                                                        {M::minutes, "s"},
                                                        {M::paused, "s"},
                                                        {M::warm_up, "s"},
                                                        {M::overlap, "s"},
                                                        {M::fault, "s"},
                                                        {M::flow, "sba"},
                                                        {M::flow_deviation, "sba"},
                                                        {M::volume, "sba"},
                                                        {M::calibrator_overdue, "sbda"},
                                                        {M::calibrator_range, "sbda"},
                                                        {M::certificate_missing, "sbda"},
                                                        {M::calibrator_same, "sba"},
                                                        {M::calibrator_uncertainty, "sba"},
                                                        {M::cut_shift, "sba"}};
  for (const auto& [measure, records] : expected) {
    RuleSet rules = RulesText{{of_sample("drift", "within", "2 %")}}.rule_set();
    rules.rules.front().measure = static_cast<std::size_t>(measure);
    const Screening screening(book.book(), rules);
    Finding finding;
    std::string told;
    for (const Place& at : places_of(screening, result, finding)) {
      const std::string place = to_text(at);
      told += place == "samples.csv:2" ? 's' : place == "readings.csv:2" ? 'b' : place == "readings.csv:3" ? 'd' : 'a';
    }
    EXPECT_EQ(told, records) << "measure " << static_cast<int>(measure);
  }
}

TEST(Places, OfWhatIsMissingAreTheSampleAtLeast) {
  EXPECT_EQ(places(of_sample("drift", "within", "2 %"), with_readings("")), Places{"samples.csv:2"});
}

TEST(Places, OfASetAndAReading) {
  EXPECT_EQ(places({Subject::set, "flow", "at_least", {"1.96 L/min"}}), Places{"readings.csv:3"});
  EXPECT_EQ(places({Subject::reading, "indicated", "at_least", {"1.96 L/min"}}), Places{"readings.csv:3"});
}

TEST(Places, OfFaultyRecordsAreTheFault) {
  EXPECT_EQ(places(of_sample("drift", "within", "5 %"), with_readings("2026-09-21T07:30,pre,S1,V1,2.O\n")),
            Places{"readings.csv:2:28"});
}

TEST(Reported, IsInTheUnitOfTheMeasure) {
  Judgement judgement{Outcome::void_, -0.0624, -0.05, -0.0124};
  const Reported drift = reported(of_sample("drift", "within", "5 %").rule(), judgement);
  EXPECT_NEAR(drift.value, -6.24, 1e-12);
  EXPECT_NEAR(drift.limit, -5, 1e-12);
  EXPECT_NEAR(drift.margin, -1.24, 1e-12);
  EXPECT_EQ(drift.unit, "%");
}

TEST(Reported, IsInTheUnitOfAnAbsoluteLimit) {
  Judgement judgement{Outcome::void_, -0.125, -0.1, -0.025};
  const Reported drift = reported(of_sample("drift", "within", "100 mL/min").rule(), judgement);
  EXPECT_NEAR(drift.value, -125, 1e-9);
  EXPECT_NEAR(drift.margin, -25, 1e-9);
  EXPECT_EQ(drift.unit, "mL/min");
}

TEST(Reported, OfWhatIsMissingIsMissing) {
  const Reported drift = reported(of_sample("drift", "within", "5 %").rule(), Judgement{});
  EXPECT_TRUE(is_missing(drift.value));
  EXPECT_TRUE(is_missing(drift.limit));
  EXPECT_TRUE(is_missing(drift.margin));
}

TEST(RuleName, IsFull) {
  JudgedBook book(BookText(), {{of_sample("drift", "within", "2 %")}});
  EXPECT_EQ(rule_name(book.screening(), book.result("S1").findings.front()), "own/drift");
  EXPECT_EQ(rule_name(book.screening(), Finding{Finding::faulty_records, {}, no_row, missing}), "book/faulty-records");
}

std::string told_of(const RuleText& rule, const Judgement& judgement, double probability_beyond) {
  BookText text;
  text.settings += "[decision]\nguard = 1.5\n";
  const JudgedBook book(text, {{rule}});
  Finding finding;
  finding.judgement = judgement;
  finding.probability_beyond = probability_beyond;
  return figure_message(book.screening(), book.screening().rules().rules.front(), finding, "it");
}

TEST(FigureMessage, TellsTheGuardBandFromTheLimitItself) {
  const RuleText within = of_sample("drift", "within", "5 %");
  EXPECT_EQ(told_of(within, {Outcome::qualified, 0.046, 0.05, 0.004}, 0.06),
            "it is within 5 %, but nearer to it than the guard band of 1.50 U allows; 6 % likely beyond");
  EXPECT_EQ(told_of(within, {Outcome::qualified, 0.046, 0.05, 0.004}, missing),
            "it is within 5 %, but its uncertainty can't be stated, so that the guard band of 1.50 U can't be kept");
  EXPECT_EQ(told_of(within, {Outcome::met, 0.046, 0.05, 0.004}, 0.06), "it is within 5 %, but 6 % likely beyond");
  EXPECT_EQ(told_of(within, {Outcome::qualified, 0.054, 0.05, -0.004}, 0.9), "it is not within 5 %");
  EXPECT_EQ(told_of(within, {Outcome::qualified, 0.054, 0.05, missing}, 0.9), "it is not within 5 %");
  EXPECT_TRUE(told_of(of_sample("minutes", "at_least", "5 min"), {Outcome::qualified, 7, 5, 2}, 0.06)
                  .starts_with("it is at least 5 min, but"));
}

TEST(FigureMessage, OfAFigureOnItsLimitGoesByWhetherTheLimitIncludesIt) {
  const Judgement on{Outcome::qualified, 0.05, 0.05, 0};
  EXPECT_TRUE(told_of(of_sample("drift", "within", "5 %"), on, 0.5).starts_with("it is within 5 %, but nearer"));
  EXPECT_EQ(told_of(of_sample("drift", "strictly_within", "5 %"), on, 0.5).substr(0, 9), "it is not");
  EXPECT_EQ(told_of(of_sample("minutes", "less_than", "5 min"), on, 0.5).substr(0, 9), "it is not");
  EXPECT_EQ(told_of(of_sample("minutes", "more_than", "5 min"), on, 0.5).substr(0, 9), "it is not");
  const Judgement inside{Outcome::qualified, 0.04, 0.05, 0.01};
  EXPECT_TRUE(told_of(of_sample("drift", "strictly_within", "5 %"), inside, 0.5).ends_with("50 % likely beyond"));
}

TEST(ChanceText, HasTwoDecimalsNearTheEndsOnly) {
  const auto text = [](double probability) {
    Finding finding;
    finding.probability_beyond = probability;
    return chance_text(finding);
  };
  EXPECT_EQ(text(0.005), "0.50 %");
  EXPECT_EQ(text(0.01), "1 %");
  EXPECT_EQ(text(0.015), "2 %");
  EXPECT_EQ(text(0.5), "50 %");
  EXPECT_EQ(text(0.99), "99 %");
  EXPECT_EQ(text(0.995), "99.50 %");
  EXPECT_EQ(text(missing), "not known how");
}

TEST(Message, TellsWhyAFigureOfOneSetIsMissing) {
  EXPECT_EQ(message(of_sample("pre.flow", "at_least", "1 L/min"), with_readings("")),
            "pre.flow is missing: no readings were found before or after it");
  EXPECT_EQ(message(of_sample("post.flow", "at_least", "1 L/min"), with_readings("")),
            "post.flow is missing: no readings were found before or after it");
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,,\n2026-09-21T16:10,post,S1,V1,1.950,yes,slipped\n";
  EXPECT_EQ(message({Subject::set, "flow", "at_least", {"1 L/min"}}, text),
            "flow of the post set is missing: all readings of a post set are void");
}

TEST(Message, TellsWhatIsNotInTheRecords) {
  EXPECT_EQ(message(of_sample("record.pump-serial", "is", "yes")), "record.pump-serial is not in the records");
  BookText text;
  text.instruments =
      "instrument,kind,principle,serial\nP1,pump,,11\nP2,pump,,12\nV1,calibrator,volumetric,13\nV2,calibrator,"
      "volumetric,14\n";
  EXPECT_EQ(message(of_sample("record.pump-serial", "is", "no"), text), "record.pump-serial is yes; the rule: is no");
}

// derived: 25 h instead of 24 h.
TEST(Reported, HasItsMarginInTheUnitOfTheMeasureToo) {
  const Reported age = reported(of_sample("pre.age", "at_most", "24 h").rule(), {Outcome::void_, 1500, 1440, -60});
  EXPECT_NEAR(age.value, 25, 1e-12);
  EXPECT_NEAR(age.margin, -1, 1e-12);
}

}  // namespace
}  // namespace driftwarden::message_test

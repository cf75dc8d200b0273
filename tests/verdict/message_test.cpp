// SPDX-License-Identifier: MIT
#include "verdict/message.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "support/book_text.hpp"
#include "verdict/cyclone_message.hpp"

namespace driftwarden::message_test {
namespace {

// input: figures to be told.

std::string message(const RuleText& rule, const BookText& text = {}, std::vector<PracticeChoice> practice = {}) {
  JudgedBook book(text, {{rule}, {}, std::move(practice)});
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

const std::string unknown_drift = "The change of flow from before to after can't be worked out: ";

RuleText of_sample(std::string_view measure, std::string_view form, const std::string& value) {
  return {Subject::sample, measure, form, {value}};
}

TEST(Message, TellsWhatAFlowDidToTheMass) {
  EXPECT_EQ(of_cyclone(cyclone_book("1.9"), "cut.size"),
            "At this flow the 50 % cut size of the sampler is 4.16 µm; the limit is 4.1 µm");
  EXPECT_EQ(
      of_cyclone(cyclone_book("1.9"), "mass.shift.actual"),
      "By the stated curve of its sampler, this flow makes the concentration by the actual volume 5.3 % too high; the "
      "limit is 0.01 %");
  EXPECT_EQ(
      of_cyclone(cyclone_book("2.1"), "mass.shift.nominal"),
      "By the stated curve of its sampler, this flow makes the concentration by the nominal volume 0.2 % too low; the "
      "limit is 0.01 %");
  EXPECT_EQ(
      of_cyclone(cyclone_book("2.1"), "mass.bias"),
      "By the stated curve of its sampler, the concentration lies 6.0 % below that of the convention; the limit is "
      "0.01 %");
}

TEST(Message, SaysOfManyDustsThatItIsTheOneThatMakesTheMost) {
  EXPECT_EQ(
      of_cyclone(cyclone_book("1.9", false), "mass.shift.actual"),
      "By the stated curve of its sampler, this flow makes the concentration by the actual volume 12.3 % too high, "
      "for the dust that makes the most of it; the limit is 0.01 %");
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
  EXPECT_EQ(said(Otherwise::void_),
            "The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 1 %; that this "
            "voids is how the pack reads Clause 7");
  EXPECT_EQ(said(Otherwise::qualify),
            "The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 1 %");
}

TEST(Message, TellsTheFigureAndTheLimit) {
  EXPECT_EQ(message(of_sample("drift", "within", "2 %")),
            "The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 2 %");
  EXPECT_EQ(message(of_sample("minutes", "at_least", "500 min")),
            "The sample ran for 480 min; the rule asks for at least 500 min");
}

TEST(Message, TellsTheWordAndTheRule) {
  BookText text = with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T16:10,post,S1,V2,2\n");
  EXPECT_EQ(message(of_sample("calibrator.same", "is", "yes"), text),
            "Different calibrators read the flow before and after: V1 and V2");
}

TEST(Message, TellsThatAWordIsMissing) {
  EXPECT_EQ(message(of_sample("fault", "is", "no")), "Nobody wrote down whether a fault was seen");
}

TEST(Message, TellsWhyAFigureIsMissing) {
  const RuleText drift = of_sample("drift", "within", "5 %");
  EXPECT_EQ(
      message(drift, with_readings("")),
      unknown_drift + "no flow reading before or after sampling is on record (enter them if they were written down)");
  EXPECT_EQ(message(drift, with_readings("2026-09-21T16:10,post,S1,V1,2\n")),
            unknown_drift + "no flow reading before sampling is on record (enter it if it was written down)");
  EXPECT_EQ(message(drift, with_readings("2026-09-21T07:30,pre,S1,V1,2\n")),
            unknown_drift + "no flow reading after sampling is on record (enter it if it was written down)");
}

TEST(Message, TellsThatNobodyReadDuringSampling) {
  EXPECT_EQ(
      message(of_sample("field.deviation", "within", "5 %")),
      "How far the flow during sampling was from the flow before sampling can't be worked out: no flow reading during "
      "sampling is on record (enter it if it was written down)");
}

// What is missing first is told first: the pre set before the readings during sampling, these before what a set lacks.
TEST(Message, BlamesTheFieldOnlyWhereNothingElseIsMissing) {
  const RuleText deviation = of_sample("field.deviation", "within", "5 %");
  const std::string unknown =
      "How far the flow during sampling was from the flow before sampling can't be worked out: ";
  EXPECT_EQ(message(deviation, with_readings("2026-09-21T16:10,post,S1,V1,2\n")),
            unknown + "no flow reading before sampling is on record (enter it if it was written down)");
  EXPECT_NE(message(of_sample("field.nominal-deviation", "within", "5 %"), with_readings(""))
                .find("no flow reading during sampling is on record"),
            std::string::npos);
  BookText text =
      with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T12:00,field,S1,V1,2\n2026-09-21T16:10,post,S1,V1,2\n");
  text.instruments = "instrument,kind,principle\nP1,pump,\nV1,calibrator,mass\nV2,calibrator,volumetric\n";
  EXPECT_EQ(message(deviation, text), unknown + "a reading of V1 lacks its temperature");
  EXPECT_EQ(message(of_sample("calibrator.overdue", "at_most", "0 d")),
            "When the calibrator was due is not known: the book does not say");
}

TEST(Message, NamesTheCalibratorOfTheReadingAndAllWhereNoneIsAtFault) {
  const BookText text = with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T16:10,post,S1,V2,1.95\n");
  EXPECT_EQ(message({Subject::reading, "indicated", "at_least", {"1.96 L/min"}}, text),
            "V2 showed 1.950 L/min in the reading at readings.csv:3; the rule asks for at least 1.96 L/min");
  BookText known = text;
  known.instruments =
      "instrument,kind,principle,serial\nP1,pump,,\nP2,pump,,\nV1,calibrator,volumetric,S-1\n"
      "V2,calibrator,volumetric,S-2\n";
  EXPECT_EQ(message(of_sample("record.calibrator-serial", "is", "no"), known),
            "The serial number of V1 and V2 is written down");
}

// The second of two calibrators is at fault, and it alone is named.
TEST(Message, BlamesTheCalibratorOfTheFigure) {
  BookText text = with_readings("");
  text.instruments =
      "instrument,kind,principle,low [L/min],high [L/min],scale temperature [°C],scale pressure [kPa],read at\n"
      "P1,pump,,,,,,\nP2,pump,,,,,,\nV1,calibrator,rotameter,1,3,20,101.325,centre\n"
      "V2,calibrator,rotameter,1,1.9,20,101.325,top\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC1,V1,2026-01-05,2,2,2\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
      "2026-09-21T07:30,pre,S1,V1,2,20,100\n2026-09-21T16:10,post,S1,V2,2,20,100\n";
  EXPECT_EQ(message(of_sample("calibrator.range", "at_most", "1 %"), text),
            "A reading lies 5.3 % outside the range of V2; the limit is 1 %");
  EXPECT_EQ(message(of_sample("certificate.missing", "is", "no"), text),
            "V2 had no certificate in force when it was read");
  EXPECT_EQ(message(of_sample("calibrator.read-at", "is", "centre"), text),
            "V2 was read at the top of its float; the rule asks for centre");
}

TEST(Message, NamesWhatTheFlowFellOfByThePracticeOfTheBook) {
  const BookText text = with_readings(
      "2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T12:00,field,S1,V1,1.8\n2026-09-21T16:10,post,S1,V1,1.95\n");
  EXPECT_EQ(
      message(of_sample("drift", "within", "2 %"), text, {practice("drift_base", "mean")}),
      "The flow fell 2.5 % of the mean flow, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 2 %");
  EXPECT_EQ(message(of_sample("field.deviation", "within", "2 %"), text, {practice("drift_base", "mean")}),
            "During sampling the flow was read 10.0 % below the flow before sampling (1.800 L/min, before sampling "
            "2.000 L/min); the limit is 2 %");
}

// A fault says of which pump and on which day, and in the words of its note what was seen.
TEST(Message, OfAFaultSaysWhatWasSeen) {
  BookText text;
  text.samples = "sample,pump,started,stopped,fault,note\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,yes,found stopped\n";
  EXPECT_EQ(message(of_sample("fault", "is", "no"), text),
            "A fault of P1 is on record in this sample; noted there: 'found stopped'");
  text.samples = "sample,pump,started,stopped,fault\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,yes\n";
  EXPECT_EQ(message(of_sample("fault", "is", "no"), text),
            "A fault of P1 is on record in this sample (it stopped, or an inlet was blocked; nobody "
            "noted which)");
}

TEST(Message, OfAnOverlapNamesTheOtherSampleAndTheTime) {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,P1,2026-09-21T15:35,2026-09-21T23:30\n";
  EXPECT_EQ(message(of_sample("overlap", "at_most", "0 min"), text),
            "P1 is on record for this sample and S2 at the same time, from 15:35 to 16:00 (25 min): if the "
            "field sheets say otherwise, correct the record");
  text.samples =
      "sample,pump,started,stopped\nS1,P1,2026-09-21T16:00,2026-09-22T04:00\n"
      "S2,P1,2026-09-21T23:30,2026-09-22T08:00\n";
  EXPECT_EQ(message(of_sample("overlap", "at_most", "10 min"), text),
            "P1 is on record for this sample and S2 at the same time, from 2026-09-21 23:30 to 2026-09-22 04:00 (270 "
            "min): if the field sheets say otherwise, correct the record; the limit is 10 min");
}

TEST(Message, OfACountSaysWhichReadingsAreStruckOut) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,yes,slipped\n2026-09-21T07:31,pre,S1,V1,2.000,yes,slipped\n"
      "2026-09-21T16:10,post,S1,V1,1.950,,\n";
  EXPECT_EQ(message(of_sample("pre.count", "at_least", "3"), text),
            "All 2 readings before sampling are struck out; the rule asks for at least 3");
  EXPECT_EQ(message({Subject::set, "count", "at_least", {"1"}}, text),
            "All 2 readings before sampling are struck out; the rule asks for at least 1");
  EXPECT_EQ(message(of_sample("pre.count", "at_least", "3"), with_readings("2026-09-21T16:10,post,S1,V1,2\n")),
            "No flow reading before sampling is on record (enter them if they were written down); the rule asks for at "
            "least 3");
  EXPECT_EQ(message(of_sample("field.count", "at_least", "1"), text),
            "No flow reading during sampling is on record (enter them if they were written down); the rule asks for at "
            "least 1");
}

TEST(Message, SaysOfWhatASpreadIsAShare) {
  const BookText text =
      with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T07:31,pre,S1,V1,2.2\n2026-09-21T16:10,post,S1,V1,2\n");
  EXPECT_EQ(
      message(of_sample("pre.rsd", "at_most", "2 %"), text),
      "The flow readings before sampling scatter: their standard deviation is 6.7 % of their mean; the limit is 2 %");
  EXPECT_EQ(
      message(of_sample("pre.rsd", "at_most", "0.01 L/min"), text),
      "The flow readings before sampling scatter: their standard deviation is 0.141 L/min; the limit is 0.01 L/min");
}

// A rule of sets asks for what each set is; a set that it is held to may lack its figure all the same.
TEST(Message, BlamesNoConditionOfARuleOfSets) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,,\n2026-09-21T16:10,post,S1,V1,1.950,yes,slipped\n";
  RuleText rule{Subject::set, "flow", "at_least", {"1 L/min"}};
  rule.where = {{"stage", {"post"}, {}, {}}};
  EXPECT_EQ(message(rule, text), "The flow after sampling is not known: all readings after sampling are struck out");
}

TEST(Message, OfASamplerSaysWhetherItIsDescribed) {
  BookText text;
  text.samples = "sample,pump,sampler,started,stopped\nS1,P1,cyclone,2026-09-21T08:00,2026-09-21T16:00\n";
  JudgedBook book(text, {{of_sample("sampler.known", "is", "no")}, {sampler("cyclone", 2.0)}});
  const SampleResult& result = book.result("S1");
  ASSERT_EQ(result.findings.size(), 1U);
  EXPECT_EQ(message_of(book.screening(), result, result.findings[0]), "The sampler cyclone is described");
}

TEST(Message, LeavesEmptyWhatASampleDoesNotSay) {
  const Book book = book_of(BookText());
  RuleSet rules = RulesText{{of_sample("drift", "within", "1 %")}}.rule_set();
  rules.rules.front().sentence = "{sample} of {pump}: <{sampler}> <{batch}>";
  const Screening screening(book, rules);
  SampleJudge judge(screening);
  const SampleResult& result = judge.judge(0);
  EXPECT_EQ(message_of(screening, result, result.findings.front()), "S1 of P1: <> <>");
}

TEST(MeasureName, SaysWhichSetOrReading) {
  const auto name = [](const RuleText& rule) {
    JudgedBook book(BookText(), {{rule}});
    const SampleResult& result = book.result("S1");
    return measure_name(book.screening(), result, result.findings.front());
  };
  EXPECT_EQ(name(of_sample("drift", "within", "2 %")), "drift");
  EXPECT_EQ(name({Subject::set, "flow", "at_least", {"1.96 L/min"}}), "flow of the post set");
  EXPECT_EQ(name({Subject::reading, "indicated", "at_least", {"1.96 L/min"}}),
            "indicated of the reading at readings.csv:3");
}

// The worse of two is named, and the base that a rule names.
TEST(Message, NamesTheCalibratorThatTheFigureComesFrom) {
  BookText text = with_readings("2026-09-21T07:30,pre,S1,V1,2\n2026-09-21T16:10,post,S1,V2,2\n");
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-12-01,2,2,2\nC2,V2,2026-01-05,2026-09-07,2,2,2\n";
  EXPECT_EQ(message(of_sample("calibrator.overdue", "at_most", "0 d"), text),
            "The flow was read 14 days after the recalibration of V2 was due");
  EXPECT_EQ(message(of_sample("calibrator.overdue", "at_most", "7 d"), text),
            "The flow was read 14 days after the recalibration of V2 was due; the limit is 7 days");
}

TEST(Message, NamesTheBaseThatTheFigureIsRelativeTo) {
  RuleText rule = of_sample("drift", "within", "2 %");
  rule.base = Base::mean;
  EXPECT_EQ(
      message(rule),
      "The flow fell 2.5 % of the mean flow, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 2 %");
  EXPECT_EQ(
      message(of_sample("drift", "within", "0.01 L/min")),
      "The flow fell 0.050 L/min, from 2.000 L/min before sampling to 1.950 L/min after; the limit is 0.01 L/min");
}

TEST(Message, DoesNotBlameReadingsForAFigureThatNeedsNone) {
  EXPECT_EQ(message(of_sample("warm-up", "at_least", "15 min"), with_readings("")),
            "How long P1 had run when its flow was read before sampling is not known: the book does not say");
}

TEST(Message, TellsThatNobodyCanSayWhetherTheRuleApplies) {
  RuleText rule = of_sample("drift", "within", "5 %");
  rule.where = {{"temperature", {}, 273.15, {}}};
  EXPECT_EQ(message(rule), "Whether the rule applies can't be said, for the sample lacks: temperature");
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
  EXPECT_EQ(lack("", "rotameter", "20,100"),
            unknown_drift + "the conditions that the scale of R1 is made for are not in instruments.csv");
  EXPECT_EQ(lack("", "mass", ","), unknown_drift + "a reading of R1 lacks its temperature");
  EXPECT_EQ(lack("", "mass", "20,"), unknown_drift + "a reading of R1 lacks its pressure");
}

TEST(Message, NamesTheSetOrTheReading) {
  EXPECT_EQ(message({Subject::set, "flow", "at_least", {"1.96 L/min"}}),
            "The flow after sampling was 1.950 L/min; the rule asks for at least 1.96 L/min");
  EXPECT_EQ(message({Subject::reading, "indicated", "at_least", {"1.96 L/min"}}),
            "V1 showed 1.950 L/min in the reading at readings.csv:3; the rule asks for at least 1.96 L/min");
}

TEST(Message, NamesTheFaultOfTheRecords) {
  EXPECT_EQ(message(of_sample("drift", "within", "5 %"), with_readings("2026-09-21T07:30,pre,S1,V1,2.O\n")),
            "A record that the sample leans on can't be understood: readings.csv:2:28: '2.O' is not a number");
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
                                                        {M::vacuum, "s"},
                                                        {M::leak, "s"},
                                                        {M::interruptions, "s"},
                                                        {M::pressure_drop, "s"},
                                                        {M::pulsation, "s"},
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
                                                        {M::cut_shift, "sba"},
                                                        {M::cut_size, "sba"},
                                                        {M::mass_shift_actual, "sba"}};
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
  EXPECT_EQ(places(of_sample("drift", "within", "2 %"), with_readings("2026-09-21T16:10,post,S1,V1,2\n")),
            Places{"readings.csv:2"});
}

TEST(Places, OfASetAndAReading) {
  EXPECT_EQ(places({Subject::set, "flow", "at_least", {"1.96 L/min"}}), Places{"readings.csv:3"});
  EXPECT_EQ(places({Subject::reading, "indicated", "at_least", {"1.96 L/min"}}), Places{"readings.csv:3"});
}

TEST(Places, OfFaultyRecordsAreTheFault) {
  EXPECT_EQ(places(of_sample("drift", "within", "5 %"), with_readings("2026-09-21T07:30,pre,S1,V1,2.O\n")),
            Places{"readings.csv:2:28"});
}

TEST(RuleName, IsFull) {
  JudgedBook book(BookText(), {{of_sample("drift", "within", "2 %")}});
  EXPECT_EQ(rule_name(book.screening(), book.result("S1").findings.front()), "own/drift");
  EXPECT_EQ(rule_name(book.screening(), Finding{Finding::faulty_records, {}, no_row, missing}), "book/faulty-records");
}

TEST(Message, TellsWhyAFigureOfOneSetIsMissing) {
  EXPECT_EQ(message(of_sample("pre.flow", "at_least", "1 L/min"), with_readings("")),
            "The flow before sampling is not known: no flow reading before or after sampling is on record (enter them "
            "if they "
            "were written down)");
  EXPECT_EQ(
      message(of_sample("post.flow", "at_least", "1 L/min"), with_readings("")),
      "The flow after sampling is not known: no flow reading before or after sampling is on record (enter them if they "
      "were written down)");
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,,\n2026-09-21T16:10,post,S1,V1,1.950,yes,slipped\n";
  EXPECT_EQ(message({Subject::set, "flow", "at_least", {"1 L/min"}}, text),
            "The flow after sampling is not known: all readings after sampling are struck out");
}

TEST(Message, TellsWhatIsNotInTheRecords) {
  EXPECT_EQ(message(of_sample("record.pump-serial", "is", "yes")), "The serial number of P1 is not written down");
  BookText text;
  text.instruments =
      "instrument,kind,principle,serial\nP1,pump,,11\nP2,pump,,12\nV1,calibrator,volumetric,13\nV2,calibrator,"
      "volumetric,14\n";
  EXPECT_EQ(message(of_sample("record.pump-serial", "is", "no"), text), "The serial number of P1 is written down");
}

}  // namespace
}  // namespace driftwarden::message_test

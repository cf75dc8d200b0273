// SPDX-License-Identifier: MIT
#include "verdict/subjects.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::subjects_test {
namespace {

// Two samples of P1, one of P2 and a blank, in batches A and B; drifts -2.5 %, -7.5 % and 0.
BookText three_samples() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,interval [d],read at\n"
      "P1,pump,,,\nP2,pump,,,\nV1,calibrator,volumetric,365,\nV2,calibrator,volumetric,,\nR1,calibrator,rotameter,,"
      "top\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2,2,2.02,2\nC1,V1,2026-01-05,3,3,2.91,3\nC2,V2,2026-01-05,2,2,,2\n";
  text.samples =
      "sample,batch,kind,pump,started,stopped\n"
      "S1,A,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,A,sample,P1,2026-09-28T08:00,2026-09-28T16:00\n"
      "S3,B,sample,P2,2026-09-21T08:00,2026-09-21T16:00\n"
      "BL,A,blank,,,\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n"
      "2026-09-28T07:30,pre,S2,V1,2.000\n2026-09-28T16:10,post,S2,V1,1.850\n"
      "2026-09-21T07:30,pre,S3,V1,2.000\n2026-09-21T16:10,post,S3,V1,2.000\n";
  return text;
}

Day day(const std::string& text) {
  Day result = no_day;
  StampReader(TimeZone::utc(), DateOrder::iso).read_date(text, result);
  return result;
}

class JudgedSubjects {
 public:
  explicit JudgedSubjects(std::vector<RuleText> rules, const std::string& as_of = "2026-10-01",
                          BookText text = three_samples()) {
    rules.push_back({Subject::sample, "drift", "within", {"5 %"}});
    book_ = std::make_unique<JudgedBook>(text, RulesText{rules});
    std::vector<SampleFacts> facts;
    for (const std::string_view name : {"S1", "S2", "S3", "BL"}) facts.push_back(facts_of(book_->result(name)));
    results_ = judge_subjects(book_->screening(), facts, day(as_of));
  }

  const std::vector<SubjectResult>& results() const { return results_; }
  std::string only_message() const {
    if (results_.size() != 1 || results_[0].findings.size() != 1) return std::to_string(results_.size()) + " results";
    return results_[0].name + ": " + message_of(book_->screening(), results_[0].findings[0]);
  }

 private:
  std::unique_ptr<JudgedBook> book_;
  std::vector<SubjectResult> results_;
};

std::string message_under(const RuleText& rule, const std::string& as_of = "2026-10-01") {
  return JudgedSubjects({rule}, as_of).only_message();
}

TEST(Subjects, AreKeptOnlyWithFindings) {
  EXPECT_TRUE(JudgedSubjects({{Subject::pump, "drift.mean", "within", {"20 %"}}}).results().empty());
  EXPECT_TRUE(JudgedSubjects({}).results().empty());
}

TEST(Subjects, OfAPumpAreMeanAndSpreadOfItsDrifts) {
  EXPECT_EQ(message_under({Subject::pump, "drift.mean", "within", {"4 %"}}),
            "P1: On average the flow of P1 fell 5.0 % over a sample (2 samples); the limit is 4 %");
  RuleText spread{Subject::pump, "drift.sd", "at_most", {"3 %"}};
  spread.absent = Absent::skip;  // one sample has no spread
  EXPECT_EQ(message_under(spread),
            "P1: The change of flow of P1 from before to after scatters from sample to sample: its standard deviation "
            "is 3.5 % of the flow "
            "(2 samples); the "
            "limit is 3 %");
}

TEST(Subjects, WithoutEnoughSamplesAreUndecided) {
  const JudgedSubjects judged({{Subject::pump, "drift.sd", "at_most", {"9 %"}}});
  ASSERT_EQ(judged.results().size(), 1U);
  EXPECT_EQ(judged.results()[0].name, "P2");
  EXPECT_EQ(judged.results()[0].verdict, Verdict::undecided);
  EXPECT_EQ(judged.only_message(), "P2: How the drift of P2 scatters is not known: the book does not say (1 sample)");
}

// The pre flow went from 2.000 to 2.100 L/min in a week: 0.1 of a mean of 2.05.
TEST(Subjects, OfAPumpHaveATrendAWeek) {
  BookText text = three_samples();
  text.readings.replace(text.readings.find("S2,V1,2.000"), 11, "S2,V1,2.100");
  RuleText rule{Subject::pump, "trend", "within", {"4 %"}};
  rule.absent = Absent::skip;
  EXPECT_EQ(JudgedSubjects({rule}, "2026-10-01", text).only_message(),
            "P1: The flow of P1 before sampling rises by 4.9 % a week (2 samples); the limit is 4 %");
}

// derived: 0.1 L/min of 2.05 in a week; what was not read before, or started nobody knows when, is on no line.
TEST(Subjects, HaveTheirTrendFromWhatIsKnownOfTheirSamples) {
  BookText text = three_samples();
  text.readings.replace(text.readings.find("S2,V1,2.000"), 11, "S2,V1,2.100");
  text.samples += "S4,A,sample,P1,2026-09-29T08:00,2026-09-29T16:00\nS5,A,sample,P1,,\n";
  text.readings += "2026-09-30T07:30,pre,S5,V1,9.000\n";
  RuleText rule{Subject::pump, "trend", "within", {"4 %"}};
  rule.absent = Absent::skip;
  JudgedBook book(text, {{rule}});
  std::vector<SampleFacts> facts;
  for (const std::string_view name : {"S1", "S2", "S4", "S5"}) facts.push_back(facts_of(book.result(name)));
  const std::vector<SubjectResult> results = judge_subjects(book.screening(), facts, 0);
  ASSERT_EQ(results.size(), 1U);
  EXPECT_NEAR(results[0].findings[0].judgement.figure, 0.1 / 2.05, 1e-9);
  EXPECT_EQ(results[0].findings[0].n, 2U);
}

TEST(Subjects, AreThoseThatTheRuleIsAbout) {
  const auto names = [](const RuleText& rule) {
    std::string all;
    const JudgedSubjects judged({rule});
    for (const SubjectResult& result : judged.results()) all += result.name + " ";
    return all;
  };
  RuleText age{Subject::calibrator, "age", "at_most", {"30 d"}};
  EXPECT_EQ(names(age), "V1 V2 R1 ");
  age.where = {{"instrument", {"V2"}, {}, {}}};
  EXPECT_EQ(names(age), "V2 ");
  age.where = {{"principle", {"rotameter"}, {}, {}}};
  EXPECT_EQ(names(age), "R1 ");
  age.where = {{"read-at", {"top"}, {}, {}}};
  EXPECT_EQ(names(age), "R1 ");
  age.where = {{"read-at", {"centre"}, {}, {}}};
  EXPECT_EQ(names(age), "");
  RuleText spread{Subject::pump, "drift.sd", "at_most", {"9 %"}};
  EXPECT_EQ(names(spread), "P2 ") << "one drift has no spread";
  spread.where = {{"drifts", {}, 2, {}}};
  EXPECT_EQ(names(spread), "");
}

TEST(Subjects, OfACalibratorAreTheFirstInstrumentOfTheBookToo) {
  BookText text = three_samples();
  text.instruments =
      "instrument,kind,principle\nV1,calibrator,volumetric\nP1,pump,\nP2,pump,\nV2,calibrator,volumetric\n";
  RuleText age{Subject::calibrator, "age", "at_most", {"30 d"}};
  const JudgedSubjects judged({age}, "2026-10-01", text);
  ASSERT_EQ(judged.results().size(), 2U);
  EXPECT_EQ(judged.results()[0].name, "V1");
}

TEST(Subjects, OfABookWithoutBatchesAreNoBatches) {
  BookText text = three_samples();
  text.samples =
      "sample,kind,pump,started,stopped\nS1,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,sample,P1,2026-09-28T08:00,2026-09-28T16:00\nS3,sample,P2,2026-09-21T08:00,2026-09-21T16:00\nBL,blank,,,\n";
  EXPECT_TRUE(
      JudgedSubjects({{Subject::batch, "void.share", "at_most", {"0 %"}}}, "2026-10-01", text).results().empty());
  JudgedBook book(text);
  const std::vector<SubjectResult> all{{Subject::batch, "A", Verdict::qualified, {}}};
  EXPECT_TRUE(subjects_of(book.book(), all, {0, 3}).empty()) << "and the blank has no pump";
}

TEST(Subjects, SayWhenACalibrationIsDue) {
  RuleText due{Subject::calibrator, "due", "at_least", {"120 d"}};
  due.absent = Absent::skip;
  EXPECT_EQ(message_under(due), "V1: The recalibration of V1 is due in 96 days; the rule asks for at least 120 days");
}

TEST(Subjects, CountVoidSamplesByPumpAndByBatchWithoutBlanks) {
  EXPECT_EQ(message_under({Subject::pump, "void.share", "at_most", {"40 %"}}),
            "P1: 50.0 % of the samples of P1 are void (2 samples); the limit is 40 %");
  EXPECT_EQ(message_under({Subject::batch, "void.share", "at_most", {"40 %"}}),
            "A: 50.0 % of the samples of batch A are void (2 samples); the limit is 40 %");
}

TEST(Subjects, OfABatchCountItsBlanks) {
  const JudgedSubjects judged({{Subject::batch, "blanks", "at_least", {"1"}}});
  ASSERT_EQ(judged.results().size(), 1U);
  EXPECT_EQ(judged.results()[0].name, "B");
  EXPECT_EQ(message_under({Subject::batch, "blank.share", "at_least", {"40 %"}}),
            "B: Batch B has no blank for its samples (1 sample); the rule asks for at least 40 %");
}

TEST(Subjects, OfACalibratorAreOfTheDayAskedFor) {
  RuleText due{Subject::calibrator, "due", "at_least", {"0 d"}};
  due.absent = Absent::skip;
  EXPECT_TRUE(JudgedSubjects({due}, "2027-01-05").results().empty());  // 365 days on: the last good day
  EXPECT_EQ(JudgedSubjects({due}, "2027-01-06").results().size(), 1U);
  RuleText age{Subject::calibrator, "age", "at_most", {"30 d"}};
  age.absent = Absent::skip;
  EXPECT_TRUE(JudgedSubjects({age}, "2026-02-04").results().empty());
  EXPECT_EQ(JudgedSubjects({age}, "2026-02-05").results().size(), 2U);  // V1 and V2
}

// Found 1 % high at one point and 3 % low at the other.
TEST(Subjects, OfACalibratorHaveTheWorstErrorAsFound) {
  RuleText rule{Subject::calibrator, "as-found.error", "within", {"2 %"}};
  rule.absent = Absent::skip;
  EXPECT_EQ(message_under(rule),
            "V1: At its last calibration V1 read up to 3.0 % too low as found (2 points of C1); the limit "
            "is 2 %");
}

TEST(Subjects, OfACalibratorAreOfItsNewestCertificateOnThatDay) {
  RuleText age{Subject::calibrator, "age", "at_most", {"30 d"}};
  age.absent = Absent::skip;
  BookText text = three_samples();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2,2,2\nC2,V1,2026-02-05,2,2,2\nC3,V1,2026-11-05,2,2,2\n"  // the last is still to come
      "C4,V2,2026-09-20,2,2,2\n";
  EXPECT_EQ(JudgedSubjects({age}, "2026-10-01", text).only_message(),
            "V1: The newest certificate of V1 is 238 days old; the limit is 30 days");
  const JudgedSubjects on_the_day({{Subject::calibrator, "age", "at_least", {"1 d"}, Otherwise::note, Absent::skip}},
                                  "2026-11-05", text);
  EXPECT_EQ(on_the_day.only_message(),
            "V1: The newest certificate of V1 is 0 days old; the rule asks for at least 1 day");
}

TEST(Subjects, PrintedWithSamplesAreTheirPumpsAndBatchesAndAllCalibrators) {
  const BookText text = three_samples();
  JudgedBook book(text);
  std::vector<SubjectResult> all;
  for (const auto& [of, name] : std::initializer_list<std::pair<Subject, const char*>>{{Subject::calibrator, "V1"},
                                                                                       {Subject::pump, "P1"},
                                                                                       {Subject::pump, "P2"},
                                                                                       {Subject::batch, "A"},
                                                                                       {Subject::batch, "B"}}) {
    all.push_back({of, name, Verdict::qualified, {}});
  }
  std::string names;
  for (const SubjectResult& one : subjects_of(book.book(), all, {row_of(book.book(), "S3")})) names += one.name + " ";
  EXPECT_EQ(names, "V1 P2 B ");
}

// Found 3 % low at 3 L/min, by a certificate with U = 0.03 L/min (k = 2): 1 % of the flow.
BookText with_uncertainty(const std::string& guard) {
  BookText text = three_samples();
  text.settings += "[decision]\nguard = " + guard + "\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],expanded "
      "uncertainty [L/min]\n"
      "C1,V1,2026-01-05,2,2,2.02,2,0.02\nC1,V1,2026-01-05,3,3,2.91,3,0.03\n";
  return text;
}

TEST(Subjects, OfACalibratorSayHowWellTheErrorAsFoundIsKnown) {
  RuleText rule{Subject::calibrator, "as-found.error", "within", {"2 %"}};
  rule.absent = Absent::skip;
  EXPECT_EQ(JudgedSubjects({rule}, "2026-10-01", with_uncertainty("0")).only_message(),
            "V1: At its last calibration V1 read up to 3.0 % too low as found (2 points of C1; expanded uncertainty "
            "1.0 %); the limit is 2 %");
  rule.values = {"0.05 L/min"};
  EXPECT_EQ(JudgedSubjects({rule}, "2026-10-01", with_uncertainty("0")).only_message(),
            "V1: At its last calibration V1 read up to 0.090 L/min too low as found (2 points of C1; expanded "
            "uncertainty 0.029 L/min); the "
            "limit is 0.05 L/min");
}

// 3 % is 0.5 % from a limit of 3.5 %, and U is 0.98 % (1.96 u).
TEST(Subjects, OfACalibratorAreGuarded) {
  RuleText rule{Subject::calibrator, "as-found.error", "within", {"3.5 %"}};
  rule.absent = Absent::skip;
  EXPECT_TRUE(JudgedSubjects({rule}, "2026-10-01", with_uncertainty("0")).results().empty());
  const JudgedSubjects guarded({rule}, "2026-10-01", with_uncertainty("1"));
  ASSERT_EQ(guarded.results().size(), 1U);
  EXPECT_EQ(guarded.results()[0].verdict, Verdict::qualified);
  EXPECT_EQ(guarded.only_message(),
            "V1: At its last calibration V1 read up to 3.0 % too low as found (2 points of C1; expanded uncertainty "
            "1.0 %), within the limit "
            "of 3.5 %, but closer to it than the guard band "
            "of 1.00 U allows: its uncertainty leaves a chance of 16 % that the true value lies beyond the limit");
  rule.values = {"4.0 %"};
  EXPECT_TRUE(JudgedSubjects({rule}, "2026-10-01", with_uncertainty("1")).results().empty());
}

TEST(Subjects, OfACalibratorSayOfNothingElseHowWellItIsKnown) {
  RuleText age{Subject::calibrator, "age", "at_most", {"30 d"}};
  age.absent = Absent::skip;
  const std::string told = JudgedSubjects({age}, "2026-10-01", with_uncertainty("0")).only_message();
  EXPECT_EQ(told.find("U ="), std::string::npos) << told;
}

TEST(Subjects, OfACalibratorNameTheLevelOfTheFloat) {
  RuleText rule{Subject::calibrator, "read-at", "is", {"centre"}};
  rule.absent = Absent::skip;
  EXPECT_EQ(message_under(rule), "R1: R1 is read at the top of its float; the rule asks for centre");
}

TEST(Subjects, ArePassedOverWhereTheRuleIsOfOthers) {
  RuleText rule{Subject::pump, "drift.mean", "within", {"4 %"}};
  rule.where = {{"instrument", {"P2"}, {}, {}}};
  EXPECT_TRUE(JudgedSubjects({rule}).results().empty());
}

TEST(Subjects, ComeInTheOrderCalibratorPumpBatch) {
  RuleText age{Subject::calibrator, "age", "at_most", {"30 d"}};
  age.absent = Absent::skip;
  const JudgedSubjects judged(
      {{Subject::batch, "void.share", "at_most", {"40 %"}}, {Subject::pump, "void.share", "at_most", {"40 %"}}, age});
  std::string names;
  for (const SubjectResult& result : judged.results()) names += result.name + " ";
  EXPECT_EQ(names, "V1 V2 P1 A ");
}

TEST(Subjects, AreJudgedOnlyWhereARuleIsAboutThem) {
  EXPECT_FALSE(judges_subjects(RulesText{{{Subject::sample, "drift", "within", {"5 %"}}}}.rule_set()));
  EXPECT_TRUE(judges_subjects(RulesText{{{Subject::batch, "blanks", "at_least", {"1"}}}}.rule_set()));
  EXPECT_TRUE(judges_subjects(RulesText{{{Subject::pump, "void.share", "at_most", {"40 %"}}}}.rule_set()));
  EXPECT_TRUE(judges_subjects(RulesText{{{Subject::calibrator, "age", "at_most", {"30 d"}}}}.rule_set()));
}

}  // namespace
}  // namespace driftwarden::subjects_test

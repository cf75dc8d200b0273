// SPDX-License-Identifier: MIT
#include "assessment/sample_assessment.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/assessed_book.hpp"

namespace driftwarden::sample_assessment_test {
namespace {

// derived: 2.00 before and 1.95 after are 1.975 L/min in the mean and a drift of -2.5 %.

BookText with_sample(const std::string& heading, const std::string& row) {
  BookText text;
  text.samples = heading + "\n" + row + "\n";
  return text;
}

TEST(SampleAssessment, WorksOutDriftFlowAndVolume) {
  AssessedBook book{BookText()};
  const SampleAssessment& s1 = book.of("S1");
  EXPECT_EQ(s1.pre_l_min, 2.0);
  EXPECT_EQ(s1.post_l_min, 1.95);
  EXPECT_NEAR(s1.drift, -0.025, exact_in_decimals);
  EXPECT_EQ(s1.minutes, 480);
  EXPECT_NEAR(s1.flow_l_min, 1.975, exact_in_decimals);
  EXPECT_NEAR(s1.volume_l, 948, exact_in_decimals);
  EXPECT_EQ(s1.pre_age_min, 30);
  EXPECT_EQ(s1.post_age_min, 10);
  EXPECT_EQ(s1.problem, no_problem);
}

TEST(SampleAssessment, FollowsThePracticeOfTheFlow) {
  BookText text =
      with_sample("sample,pump,started,stopped,nominal [L/min]", "S1,P1,2026-09-21T08:00,2026-09-21T16:00,1.7");
  const auto volume = [&](FlowForVolume flow) {
    AssessmentPractice practice;
    practice.flow_for_volume = flow;
    return AssessedBook(text, practice).of("S1").volume_l;
  };
  EXPECT_NEAR(volume(FlowForVolume::mean), 480 * 1.975, exact_in_decimals);
  EXPECT_NEAR(volume(FlowForVolume::lower), 480 * 1.95, exact_in_decimals);
  EXPECT_NEAR(volume(FlowForVolume::pre), 480 * 2.0, exact_in_decimals);
  EXPECT_NEAR(volume(FlowForVolume::nominal), 480 * 1.7, exact_in_decimals);
}

TEST(SampleAssessment, FollowsThePracticeOfTheDrift) {
  AssessmentPractice practice;
  practice.drift_base = DriftBase::mean;
  EXPECT_NEAR(AssessedBook(BookText(), practice).of("S1").drift, -0.05 / 1.975, exact_in_decimals);
}

TEST(SampleAssessment, NominalFlowOfTheSampleWinsOverThatOfItsSampler) {
  BookText text = with_sample("sample,pump,started,stopped,sampler,nominal [L/min]",
                              "S1,P1,2026-09-21T08:00,2026-09-21T16:00,cowl,\n"
                              "S2,P2,2026-09-21T08:00,2026-09-21T16:00,cowl,1.7\n"
                              "S3,P2,2026-09-21T18:00,2026-09-21T19:00,,");
  AssessedBook book(text, {}, "cowl", 2.0);
  EXPECT_EQ(book.of("S1").nominal_l_min, 2.0);
  EXPECT_EQ(book.of("S2").nominal_l_min, 1.7);
  EXPECT_TRUE(is_missing(book.of("S3").nominal_l_min));
}

TEST(SampleAssessment, CutShiftIsOfTheSamplersExponent) {
  BookText text =
      with_sample("sample,pump,started,stopped,sampler", "S1,P1,2026-09-21T08:00,2026-09-21T16:00,impactor");
  EXPECT_NEAR(AssessedBook(text, {}, "impactor", 2.0, 0.5).of("S1").cut_shift, std::sqrt(2.0 / 1.975) - 1,
              exact_in_decimals);
  EXPECT_TRUE(is_missing(AssessedBook(text, {}, "impactor", 2.0).of("S1").cut_shift));
}

// The cut is that of the flow that was drawn: sqrt(2.0 / 1.975) - 1 by calculator, whatever flow the volume is formed
// with.
TEST(SampleAssessment, CutShiftIsAtTheMeasuredFlowUnderEveryPractice) {
  BookText text =
      with_sample("sample,pump,started,stopped,sampler", "S1,P1,2026-09-21T08:00,2026-09-21T16:00,impactor");
  for (const FlowForVolume flow :
       {FlowForVolume::mean, FlowForVolume::lower, FlowForVolume::pre, FlowForVolume::nominal}) {
    AssessmentPractice practice;
    practice.flow_for_volume = flow;
    AssessedBook book(text, practice, "impactor", 2.0, 0.5);
    EXPECT_NEAR(book.of("S1").mean_flow_l_min, 1.975, exact_in_decimals) << to_text(flow);
    EXPECT_NEAR(book.of("S1").cut_shift, 0.00630915, 1e-7) << to_text(flow);
  }
}

TEST(SampleAssessment, AConventionalVolumeHasTheMeasuredOneBesideIt) {
  BookText text = with_sample("sample,pump,started,stopped,nominal [L/min],temperature [°C],pressure [kPa]",
                              "S1,P1,2026-09-21T08:00,2026-09-21T16:00,1.7,25,101.325");
  AssessmentPractice practice;
  practice.flow_for_volume = FlowForVolume::nominal;
  AssessedBook book(text, practice);
  const SampleAssessment& s1 = book.of("S1");
  EXPECT_TRUE(s1.is_conventional);
  EXPECT_NEAR(s1.volume_l, 480 * 1.7, exact_in_decimals);
  EXPECT_NEAR(s1.measured_volume_l, 480 * 1.975, exact_in_decimals);
  EXPECT_NEAR(s1.measured_volume_reference_l, 480 * 1.975, exact_in_decimals);
  AssessedBook by_mean(text);
  EXPECT_FALSE(by_mean.of("S1").is_conventional);
  EXPECT_EQ(by_mean.of("S1").measured_volume_l, by_mean.of("S1").volume_l);
}

TEST(SampleAssessment, TakesPausesOffTheMinutes) {
  AssessedBook book(
      with_sample("sample,pump,started,stopped,paused [min]", "S1,P1,2026-09-21T08:00,2026-09-21T16:00,30"));
  EXPECT_EQ(book.of("S1").minutes, 450);
  EXPECT_NEAR(book.of("S1").volume_l, 450 * 1.975, exact_in_decimals);
}

// own input: 2.000 L/min at 10.0 °C, 84.5 kPa are 1.7563 L/min at 25 °C, 101.325 kPa by the form of 40 CFR 50 Appendix
// J, section 11.1, 2015 edition; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(SampleAssessment, ReferenceVolumeIsAtTheSamplesOwnConditions) {
  BookText text = with_sample("sample,pump,started,stopped,temperature [°C],pressure [kPa]",
                              "S1,P1,2026-09-21T08:00,2026-09-21T16:00,10,84.5");
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
      "2026-09-21T07:30,pre,S1,V1,2,20,90\n2026-09-21T16:10,post,S1,V1,2,20,90\n";
  AssessedBook book(text);
  const SampleAssessment& s1 = book.of("S1");
  EXPECT_NEAR(s1.volume_reference_l, 480 * 1.7563, 480 * 0.5e-4);
  EXPECT_EQ(s1.temperature_from, ConditionsFrom::sample);
  EXPECT_EQ(s1.pressure_from, ConditionsFrom::sample);
}

TEST(SampleAssessment, TakesTheMeanOfItsSetsConditionsWhereItHasNone) {
  AssessedBook book(with_readings("2026-09-21T07:30,pre,S1,,V1,2,18,98\n2026-09-21T16:10,post,S1,,V1,2,22,100\n"));
  const SampleAssessment& s1 = book.of("S1");
  EXPECT_NEAR(s1.temperature_k, 293.15, exact_in_decimals);
  EXPECT_NEAR(s1.pressure_kpa, 99, exact_in_decimals);
  EXPECT_EQ(s1.temperature_from, ConditionsFrom::sets);
  EXPECT_EQ(s1.pressure_from, ConditionsFrom::sets);
}

TEST(SampleAssessment, TakesTheConditionsOfTheOneSetThatSays) {
  AssessedBook book(with_readings("2026-09-21T07:30,pre,S1,,V1,2,18,98\n2026-09-21T16:10,post,S1,,V1,2,,\n"));
  EXPECT_NEAR(book.of("S1").temperature_k, 291.15, exact_in_decimals);
  EXPECT_NEAR(book.of("S1").pressure_kpa, 98, exact_in_decimals);
}

// own input: US Standard Atmosphere 1976, equation 33a, 1500 m; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(SampleAssessment, TakesThePressureOfTheAltitudeWhereNobodyReadOne) {
  BookText text = with_readings("2026-09-21T07:30,pre,S1,,V1,2,18,\n2026-09-21T16:10,post,S1,,V1,2,22,\n");
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  AssessedBook book(text);
  EXPECT_NEAR(book.of("S1").pressure_kpa, 84.556, 0.5e-3);
  EXPECT_EQ(book.of("S1").pressure_from, ConditionsFrom::altitude);
  EXPECT_EQ(book.of("S1").temperature_from, ConditionsFrom::sets);
}

// A pressure that was read is better than one reckoned from the altitude, and is not diluted with it.
TEST(SampleAssessment, TakesAReadPressureBeforeThatOfTheAltitude) {
  BookText text = with_readings("2026-09-21T07:30,pre,S1,,V1,2,18,\n2026-09-21T16:10,post,S1,,V1,2,22,83\n");
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  AssessedBook book(text);
  EXPECT_EQ(book.of("S1").pressure_kpa, 83);
  EXPECT_EQ(book.of("S1").pressure_from, ConditionsFrom::sets);
}

TEST(SampleAssessment, NeverAssumesATemperatureOrAPressure) {
  AssessedBook book{BookText()};
  const SampleAssessment& s1 = book.of("S1");
  EXPECT_TRUE(is_missing(s1.volume_reference_l));
  EXPECT_EQ(s1.temperature_from, ConditionsFrom::nowhere);
  EXPECT_EQ(s1.pressure_from, ConditionsFrom::nowhere);
  EXPECT_NEAR(s1.volume_l, 948, exact_in_decimals);  // the actual volume needs neither
}

TEST(SampleAssessment, HasTheLargestChangeOfConditionsWithItsSign) {
  BookText text = with_sample("sample,pump,started,stopped,temperature [°C],pressure [kPa]",
                              "S1,P1,2026-09-21T08:00,2026-09-21T16:00,20,100");
  text.readings =
      with_readings("2026-09-21T07:30,pre,S1,,V1,2,12,101\n2026-09-21T16:10,post,S1,,V1,2,25,98\n").readings;
  AssessedBook book(text);
  EXPECT_NEAR(book.of("S1").temperature_change_k, -8, exact_in_decimals);
  EXPECT_NEAR(book.of("S1").pressure_change_kpa, -2, exact_in_decimals);
}

TEST(SampleAssessment, HasTheFieldSetFarthestFromThePreFlow) {
  AssessedBook book(
      with_readings("2026-09-21T07:30,pre,S1,,V1,2.00,,\n"
                    "2026-09-21T10:00,field,S1,,V1,2.03,,\n"
                    "2026-09-21T12:00,field,S1,,V1,1.90,,\n"
                    "2026-09-21T14:00,field,S1,,V1,2.05,,\n"
                    "2026-09-21T16:10,post,S1,,V1,2.00,,\n"));
  EXPECT_NEAR(book.of("S1").field_change_l_min, -0.10, exact_in_decimals);
  EXPECT_EQ(book.of("S1").field_count(), 3U);
}

std::string fault_place(AssessedBook& book, std::string_view sample) {
  const ProblemNumber problem = book.of(sample).problem;
  return problem == no_problem ? "" : to_text(book.book.problems[problem - 1].place);
}

TEST(SampleAssessment, GuessesNoFigureFromARecordThatCantBeUnderstood) {
  const std::string sample = "sample,pump,started,stopped,paused [min]\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,";
  BookText text;
  text.samples = sample + "4O\n";
  AssessedBook pause(text);
  EXPECT_TRUE(is_missing(pause.of("S1").minutes));
  EXPECT_TRUE(is_missing(pause.of("S1").volume_l));
  EXPECT_TRUE(is_missing(pause.of("S1").drift));
  EXPECT_EQ(pause.of("S1").pre_l_min, 2.0);
  text.samples = sample + "40\n";
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n";
  AssessedBook reading(text);
  EXPECT_EQ(reading.of("S1").minutes, 440);
  EXPECT_EQ(reading.of("S1").pre_l_min, 2.0);
  EXPECT_TRUE(is_missing(reading.of("S1").post_l_min));
  EXPECT_TRUE(is_missing(reading.of("S1").drift));
  EXPECT_TRUE(is_missing(reading.of("S1").volume_reference_l));
}

TEST(SampleAssessment, NamesTheFirstFaultOfARecordItLeansOn) {
  BookText sample =
      with_sample("sample,pump,started,stopped,paused [min]", "S1,P1,2026-09-21T08:00,2026-09-21T16:00,3O");
  AssessedBook of_sample(sample);
  EXPECT_EQ(fault_place(of_sample, "S1"), "samples.csv:2:41");

  AssessedBook of_reading(with_readings("2026-09-21T07:30,pre,S1,,V1,2.O,,\n2026-09-21T16:10,post,S1,,V1,1.9,,\n"));
  EXPECT_EQ(fault_place(of_reading, "S1"), "readings.csv:2:29");

  AssessedBook of_time(with_readings("2026-09-21T07:3O,pre,S1,,V1,2.0,,\n2026-09-21T16:10,post,S1,,V1,1.9,,\n"));
  EXPECT_EQ(fault_place(of_time, "S1"), "readings.csv:2:1");

  BookText certificate;
  certificate.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC1,V1,2026-01-05,2,2,two\n";
  AssessedBook of_certificate(certificate);
  EXPECT_EQ(fault_place(of_certificate, "S1"), "certificates.csv:2:22");
}

TEST(SampleAssessment, NamesAFaultOnItsPumpOnlyWhereItLeansOnThePump) {
  const std::string lost = "2026-09-21T25:00,post,,P1,V1,1.9,,\n";
  AssessedBook leaning(with_readings("2026-09-21T07:30,pre,,P1,V1,2.0,,\n" + lost));
  EXPECT_EQ(fault_place(leaning, "S1"), "readings.csv:3:1");
  AssessedBook own(with_readings("2026-09-21T07:30,pre,S1,,V1,2.0,,\n2026-09-21T16:10,post,S1,,V1,1.9,,\n" + lost));
  EXPECT_EQ(fault_place(own, "S1"), "");
}

// A file of readings that can't be read may have held the set that is lacking.
TEST(SampleAssessment, NamesALostFileOfReadingsWhereASetIsLacking) {
  BookText text = with_readings("2026-09-21T07:30,pre,S1,,V1,2.0,,\n");
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  const ScratchFolder folder;
  text.write(folder.path());
  std::filesystem::create_directory(folder.path() / "readings");
  std::ofstream(folder.path() / "readings" / "later.csv") << "taken,stage,sample,calibrator,reading\n";
  const Result<Book> book = read_book(folder.path(), 1);
  ASSERT_TRUE(book);
  const AssessmentBasis basis(*book, {}, {});
  SampleAssessor assessor(basis);
  const ProblemNumber problem = assessor.assess(0).problem;
  ASSERT_NE(problem, no_problem);
  EXPECT_EQ(book->problems[problem - 1].place.file, "readings/later.csv");
}

TEST(SampleAssessment, OfASampleWithoutTimesHasNoFigureOfTime) {
  AssessedBook book(with_sample("sample,pump,started,stopped", "S1,P1,,2026-09-21T16:00"));
  const SampleAssessment& s1 = book.of("S1");
  EXPECT_TRUE(is_missing(s1.minutes));
  EXPECT_TRUE(is_missing(s1.pre_age_min));
  EXPECT_EQ(s1.post_age_min, 10);
  EXPECT_NE(s1.problem, no_problem);
}

TEST(SampleAssessment, OfABlankNeedsNoTimesAlsoWithReadings) {
  BookText text = with_sample("sample,kind,pump,started,stopped", "S1,blank,,,");
  AssessedBook book(text);
  const SampleAssessment& blank = book.of("S1");
  EXPECT_EQ(blank.kind, SampleKind::blank);
  EXPECT_EQ(blank.problem, no_problem);
  EXPECT_TRUE(is_missing(blank.pre_age_min));
  EXPECT_TRUE(is_missing(blank.post_age_min));
}

TEST(SampleAssessment, KeepsNothingOfTheSampleBefore) {
  BookText text;
  text.samples += "S2,P2,2026-09-22T08:00,2026-09-22T16:00\n";
  AssessedBook book(text);
  book.of("S1");
  const SampleAssessment& s2 = book.of("S2");
  EXPECT_TRUE(s2.sets.empty());
  EXPECT_TRUE(s2.rows.empty());
  EXPECT_EQ(s2.pre_set(), nullptr);
  EXPECT_TRUE(is_missing(s2.pre_l_min));
  EXPECT_EQ(s2.minutes, 480);
}

TEST(SampleAssessment, PassesOverASetThatDoesNotSayItsConditions) {
  BookText text = with_sample("sample,pump,started,stopped,temperature [°C],pressure [kPa]",
                              "S1,P1,2026-09-21T08:00,2026-09-21T16:00,20,100");
  text.readings = with_readings("2026-09-21T07:30,pre,S1,,V1,2,12,101\n2026-09-21T16:10,post,S1,,V1,2,,\n").readings;
  AssessedBook before(text);
  EXPECT_NEAR(before.of("S1").temperature_change_k, -8, exact_in_decimals);
  EXPECT_NEAR(before.of("S1").pressure_change_kpa, 1, exact_in_decimals);
  text.readings = with_readings("2026-09-21T07:30,pre,S1,,V1,2,,\n2026-09-21T16:10,post,S1,,V1,2,12,101\n").readings;
  EXPECT_NEAR(AssessedBook(text).of("S1").temperature_change_k, -8, exact_in_decimals);
}

TEST(SampleAssessment, OfTwoChangesOfOneSizeHasThatOfThePreSet) {
  BookText text = with_sample("sample,pump,started,stopped,temperature [°C],pressure [kPa]",
                              "S1,P1,2026-09-21T08:00,2026-09-21T16:00,20,100");
  text.readings =
      with_readings("2026-09-21T07:30,pre,S1,,V1,2,20,102\n2026-09-21T16:10,post,S1,,V1,2,20,98\n").readings;
  EXPECT_EQ(AssessedBook(text).of("S1").pressure_change_kpa, 2);
}

// A sampler is named in the sample's own row only; "cowl" is the name of a set here.
TEST(SampleAssessment, OfASampleThatNamesNoSamplerHasNoFactsOfOne) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],set\n"
      "2026-09-21T07:30,pre,S1,V1,2,cowl\n2026-09-21T16:10,post,S1,V1,2,cowl\n";
  AssessedBook book(text, {}, "cowl", 2.0, 0.5);
  EXPECT_TRUE(is_missing(book.of("S1").nominal_l_min));
  EXPECT_TRUE(is_missing(book.of("S1").cut.exponent));
}

TEST(SampleAssessment, NamesTheFirstOfSeveralFaults) {
  BookText text = with_readings(
      "2026-09-21T07:3O,pre,S1,,V1,2.0,,\n2026-09-21T07:3O,pre,S1,,V1,2.0,,\n2026-09-21T25:00,post,,P1,V1,1.9,,\n");
  AssessedBook two_times(text);
  EXPECT_EQ(fault_place(two_times, "S1"), "readings.csv:2:1");
  text.samples = "sample,pump,started,stopped,paused [min]\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,3O\n";
  AssessedBook sample_first(text);
  EXPECT_EQ(fault_place(sample_first, "S1"), "samples.csv:2:41");
}

TEST(SampleAssessment, NamesAFaultOnItsPumpWhereOneOfItsEndsIsNotItsOwn) {
  const std::string lost = "2026-09-21T25:00,post,,P1,V1,1.9,,\n";
  AssessedBook pre(with_readings("2026-09-21T07:30,pre,S1,,V1,2.0,,\n" + lost));
  EXPECT_EQ(fault_place(pre, "S1"), "readings.csv:3:1");
  AssessedBook post(with_readings("2026-09-21T16:10,post,S1,,V1,2.0,,\n" + lost));
  EXPECT_EQ(fault_place(post, "S1"), "readings.csv:3:1");
}

TEST(SampleAssessment, LacksALostFileOfReadingsOnlyWhereASetIsLacking) {
  const auto problem = [](const std::string& rows, const std::string& kind = "sample") {
    BookText text = with_readings(rows);
    text.samples = "sample,kind,pump,started,stopped\nS1," + kind + ",P1,2026-09-21T08:00,2026-09-21T16:00\n";
    Book book = book_of(text);
    book.lost_readings = 7;  // input: the number of some problem
    const AssessmentBasis basis(book, {}, {});
    return SampleAssessor(basis).assess(0).problem;
  };
  const std::string pre = "2026-09-21T07:30,pre,S1,,V1,2.0,,\n";
  const std::string post = "2026-09-21T16:10,post,S1,,V1,1.9,,\n";
  EXPECT_EQ(problem(pre + post), no_problem);
  EXPECT_EQ(problem(pre), 7U);
  EXPECT_EQ(problem(post), 7U);
  EXPECT_EQ(problem("", "blank"), no_problem);
}

}  // namespace
}  // namespace driftwarden::sample_assessment_test

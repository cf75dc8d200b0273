// SPDX-License-Identifier: MIT
#include "verdict/record_look.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"
#include "verdict/message.hpp"
#include "verdict/subjects.hpp"

namespace driftwarden::record_look_test {
namespace {

// A book in which S1 lacks no record, and what a test takes away.
BookText complete_book() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,serial\n"
      "P1,pump,,S-1\n"
      "V1,calibrator,volumetric,S-2\n";
  text.certificates =
      "certificate,instrument,calibrated,issuer,standard,nominal [L/min],reference [L/min],as found [L/min],"
      "as left [L/min],expanded uncertainty [%],coverage factor\n"
      "C1,V1,2026-01-05,Our room,national prover,2,2,2,2,0.7,2\n";
  text.samples =
      "sample,batch,pump,method,started,stopped,temperature [°C],pressure [kPa],fault\n"
      "S1,B,P1,method 7,2026-09-21T08:00,2026-09-21T16:00,20,100,no\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa],by,void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,20,100,technician 1,,\n"
      "2026-09-21T07:31,pre,S1,V1,2.001,20,100,technician 1,,\n"
      "2026-09-21T07:32,pre,S1,V1,2.900,20,100,technician 1,yes,hose slipped\n"
      "2026-09-21T16:10,post,S1,V1,1.990,20,100,technician 1,,\n"
      "2026-09-21T16:11,post,S1,V1,1.991,20,100,technician 1,,\n";
  return text;
}

BookText with(BookText text, std::string BookText::*file, std::string_view what, std::string_view by) {
  const std::size_t at = (text.*file).find(what);
  if (at == std::string::npos) throw std::runtime_error("not in the file: " + std::string(what));
  (text.*file).replace(at, what.size(), by);
  return text;
}

// "yes", "no", or "" where there is nothing to say.
std::string answer(const BookText& text, SampleMeasure measure) {
  JudgedBook judged(text);
  const SampleResult& result = judged.result("S1");
  const SampleContext context{judged.screening().basis(), *result.figures, {}, &result.budget};
  return std::string(sample_measure(context, measure, Base::by_practice).word);
}

constexpr SampleMeasure all_records[] = {SampleMeasure::record_pump_serial,
                                         SampleMeasure::record_by,
                                         SampleMeasure::record_conditions,
                                         SampleMeasure::record_sampling_conditions,
                                         SampleMeasure::record_calibrator_serial,
                                         SampleMeasure::record_certificate_uncertainty,
                                         SampleMeasure::record_certificate_issuer,
                                         SampleMeasure::record_certificate_standard,
                                         SampleMeasure::record_chain,
                                         SampleMeasure::record_void_reasons,
                                         SampleMeasure::record_method,
                                         SampleMeasure::record_fault,
                                         SampleMeasure::record_uncertainty};

TEST(RecordLook, OfACompleteRecordIsYes) {
  for (const SampleMeasure measure : all_records) {
    EXPECT_EQ(answer(complete_book(), measure), "yes")
        << measures(Subject::sample)[static_cast<std::size_t>(measure)].name;
  }
}

TEST(RecordLook, IsNoWhereTheRecordIsNotThere) {
  struct Case {
    SampleMeasure measure;
    std::string BookText::*file;
    const char* what;
    const char* by;
  };
  const Case cases[] = {
      {SampleMeasure::record_pump_serial, &BookText::instruments, "S-1", ""},
      {SampleMeasure::record_by, &BookText::readings, "100,technician 1,,\n2026-09-21T16:11",
       "100,,,\n2026-09-21T16:11"},
      {SampleMeasure::record_conditions, &BookText::readings, "2.001,20,100", "2.001,20,"},
      {SampleMeasure::record_conditions, &BookText::readings, "2.001,20,100", "2.001,,100"},
      {SampleMeasure::record_sampling_conditions, &BookText::samples, "20,100,no", "20,,no"},
      {SampleMeasure::record_calibrator_serial, &BookText::instruments, "S-2", ""},
      {SampleMeasure::record_certificate_uncertainty, &BookText::certificates, "0.7,2", ",2"},
      {SampleMeasure::record_certificate_issuer, &BookText::certificates, "Our room", ""},
      {SampleMeasure::record_certificate_standard, &BookText::certificates, "national prover", ""},
      {SampleMeasure::record_chain, &BookText::certificates, "national prover", ""},
      {SampleMeasure::record_chain, &BookText::certificates, "Our room", ""},
      {SampleMeasure::record_chain, &BookText::certificates, "national prover", "C1"},
      {SampleMeasure::record_void_reasons, &BookText::readings, "hose slipped", ""},
      {SampleMeasure::record_method, &BookText::samples, "method 7", ""},
      {SampleMeasure::record_fault, &BookText::samples, "100,no", "100,"},
      {SampleMeasure::record_uncertainty, &BookText::certificates, "0.7,2", ",2"},
  };
  for (const Case& each : cases) {
    EXPECT_EQ(answer(with(complete_book(), each.file, each.what, each.by), each.measure), "no")
        << measures(Subject::sample)[static_cast<std::size_t>(each.measure)].name << " without " << each.what;
  }
}

TEST(RecordLook, IsMissingWhereThereIsNothingToWriteDown) {
  EXPECT_EQ(
      answer(with(complete_book(), &BookText::readings, ",yes,hose", ",,hose"), SampleMeasure::record_void_reasons), "")
      << "no reading is void";
  BookText without_readings = complete_book();
  without_readings.readings.erase(without_readings.readings.find('\n') + 1);
  for (const SampleMeasure measure :
       {SampleMeasure::record_by, SampleMeasure::record_conditions, SampleMeasure::record_calibrator_serial,
        SampleMeasure::record_chain, SampleMeasure::record_certificate_issuer}) {
    EXPECT_EQ(answer(without_readings, measure), "");
  }
}

TEST(RecordLook, IsNoWhereTheFileHasNoColumnForIt) {
  const auto without = [](std::string BookText::*file, const std::string& heading, std::size_t cell) {
    BookText text = complete_book();
    std::string kept;
    for (std::size_t at = 0; at < (text.*file).size();) {
      const std::size_t end = (text.*file).find('\n', at);
      std::string row = (text.*file).substr(at, end - at);
      std::size_t begin = 0;
      for (std::size_t i = 0; i < cell; ++i) begin = row.find(',', begin) + 1;
      const std::size_t next = row.find(',', begin);
      EXPECT_TRUE(at > 0 || row.substr(begin, next - begin) == heading) << row;
      row = next == std::string::npos ? row.substr(0, begin - 1) : row.erase(begin, next + 1 - begin);
      kept += row + "\n";
      at = end + 1;
    }
    text.*file = kept;
    return text;
  };
  EXPECT_EQ(answer(without(&BookText::readings, "by", 7), SampleMeasure::record_by), "no");
  EXPECT_EQ(answer(without(&BookText::readings, "note", 9), SampleMeasure::record_void_reasons), "no");
  EXPECT_EQ(answer(without(&BookText::samples, "method", 3), SampleMeasure::record_method), "no");
  EXPECT_EQ(answer(without(&BookText::samples, "temperature [°C]", 6), SampleMeasure::record_sampling_conditions),
            "no");
}

TEST(RecordLook, OfCertificatesIsMissingWhereThereIsNone) {
  BookText text = complete_book();
  text.certificates.erase(text.certificates.find('\n') + 1);
  EXPECT_EQ(answer(text, SampleMeasure::record_certificate_issuer), "");
  EXPECT_EQ(answer(text, SampleMeasure::record_certificate_uncertainty), "");
  EXPECT_EQ(answer(text, SampleMeasure::record_chain), "no") << "the chain breaks at the calibrator";
}

// Two calibrators, of which only the second lacks something: it is the one that is named.
TEST(RecordLook, BlamesTheCalibratorThatLacksIt) {
  BookText text = complete_book();
  text.instruments += "V2,calibrator,volumetric,S-3\n";
  text.certificates += "C2,V2,2026-01-05,,,2,2,2,2,,\n";
  text = with(text, &BookText::readings, "16:10,post,S1,V1", "16:10,post,S1,V2");
  text = with(text, &BookText::readings, "16:11,post,S1,V1", "16:11,post,S1,V2");
  const auto said = [&text](std::string_view measure) {
    JudgedBook judged(text, {{{Subject::sample, measure, "is", {"yes"}, Otherwise::note}}});
    const SampleResult& result = judged.result("S1");
    return result.findings.empty() ? "" : message_of(judged.screening(), result, result.findings[0]);
  };
  EXPECT_EQ(said("record.certificate-issuer"), "The certificate of V2 does not say who issued it");
  EXPECT_EQ(said("record.certificate-standard"), "The certificate of V2 does not say what it was made against");
  EXPECT_EQ(said("record.certificate-uncertainty"), "The certificate of V2 leaves out its uncertainty at some point");
  EXPECT_EQ(said("record.chain"), "There is a gap in the certificates behind V2");
  text = with(text, &BookText::instruments, "S-3", "");
  EXPECT_EQ(said("record.calibrator-serial"), "The serial number of V2 is not written down");
}

// Where a record is lacking, the finding cites the line to mend.
TEST(RecordLook, CitesTheLinesThatLackIt) {
  struct Case {
    SampleMeasure measure;
    std::string BookText::*file;
    const char* what;
    const char* by;
    const char* lines;
  };
  const Case cases[] = {
      {SampleMeasure::record_pump_serial, &BookText::instruments, "S-1", "", "instruments.csv:2"},
      {SampleMeasure::record_by, &BookText::readings, "technician 1,,\n", ",,\n", "readings.csv:2"},
      {SampleMeasure::record_conditions, &BookText::readings, "2.001,20,100", "2.001,20,", "readings.csv:3"},
      {SampleMeasure::record_sampling_conditions, &BookText::samples, "20,100,no", "20,,no", "samples.csv:2"},
      {SampleMeasure::record_calibrator_serial, &BookText::instruments, "S-2", "", "instruments.csv:3"},
      {SampleMeasure::record_certificate_uncertainty, &BookText::certificates, "0.7,2", ",2", "certificates.csv:2"},
      {SampleMeasure::record_certificate_issuer, &BookText::certificates, "Our room", "", "certificates.csv:2"},
      {SampleMeasure::record_certificate_standard, &BookText::certificates, "national prover", "",
       "certificates.csv:2"},
      {SampleMeasure::record_chain, &BookText::certificates, "national prover", "", "certificates.csv:2"},
      {SampleMeasure::record_void_reasons, &BookText::readings, "hose slipped", "", "readings.csv:4"},
      {SampleMeasure::record_method, &BookText::samples, "method 7", "", "samples.csv:2"},
      {SampleMeasure::record_fault, &BookText::samples, "100,no", "100,", "samples.csv:2"},
  };
  for (const Case& each : cases) {
    JudgedBook judged(with(complete_book(), each.file, each.what, each.by));
    const SampleContext context{judged.screening().basis(), judged.figures("S1")};
    std::string lines;
    for (const Place& place : lacking_lines(context, each.measure)) lines += to_text(place) + " ";
    EXPECT_EQ(lines, std::string(each.lines) + " ") << static_cast<int>(each.measure);
  }
}

TEST(RecordLook, CitesEveryLineOnce) {
  BookText text = complete_book();
  for (std::size_t at = 0; (at = text.readings.find("technician 1", at)) != std::string::npos;)
    text.readings.erase(at, 12);
  text.instruments = std::string(text.instruments).replace(text.instruments.find("S-2"), 3, "");
  JudgedBook judged(text);
  const SampleContext context{judged.screening().basis(), judged.figures("S1")};
  EXPECT_EQ(lacking_lines(context, SampleMeasure::record_by).size(), 4U) << "the void reading doesn't count";
  EXPECT_EQ(lacking_lines(context, SampleMeasure::record_calibrator_serial).size(), 1U) << "two sets, one calibrator";
}

TEST(RecordLook, OfOtherMeasuresIsNothing) {
  JudgedBook judged(complete_book());
  const SampleContext context{judged.screening().basis(), judged.figures("S1")};
  EXPECT_TRUE(lacking_lines(context, SampleMeasure::drift).empty());
}

// Four samples, one of which lacks its method; the blank doesn't count.
TEST(RecordComplete, IsTheShareOfSamplesNoRecordRuleSpeaksOf) {
  BookText text = complete_book();
  text.samples =
      "sample,batch,kind,pump,method,started,stopped\n"
      "S1,B,sample,P1,method 7,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,B,sample,P1,,2026-09-22T08:00,2026-09-22T16:00\n"
      "S3,B,blank,,,,\n"
      "S4,B,sample,P1,method 7,2026-09-23T08:00,2026-09-23T16:00\n"
      "S5,B,sample,P1,method 7,2026-09-24T08:00,2026-09-24T16:00\n";
  const std::vector<Condition> samples_only{Condition{"kind", {"sample"}, {}, {}}};
  JudgedBook judged(text, {{{Subject::sample,
                             "record.method",
                             "is",
                             {"yes"},
                             Otherwise::note,
                             Absent::skip,
                             Base::by_practice,
                             samples_only},
                            {Subject::batch, "record.complete", "at_least", {"100 %"}, Otherwise::note}}});
  std::vector<SampleFacts> facts;
  for (const char* name : {"S1", "S2", "S3", "S4", "S5"}) facts.push_back(facts_of(judged.result(name)));
  EXPECT_EQ(judged.result("S2").verdict, Verdict::valid) << "a note changes no verdict";
  const std::vector<SubjectResult> subjects = judge_subjects(judged.screening(), facts, 20773);
  ASSERT_EQ(subjects.size(), 1U);
  EXPECT_EQ(subjects[0].findings[0].judgement.figure, 0.75);
}

TEST(RecordAsFound, AsksTheNewestCertificateAtEveryPoint) {
  const auto subjects_of = [](const BookText& text) {
    JudgedBook judged(text, {{{Subject::calibrator, "record.as-found", "is", {"yes"}, Otherwise::note}}});
    std::vector<std::string> said;
    for (const SubjectResult& result : judge_subjects(judged.screening(), {}, 20773)) {
      said.push_back(result.name + ": " + message_of(judged.screening(), result.findings[0]));
    }
    return said;
  };
  EXPECT_TRUE(subjects_of(complete_book()).empty());
  EXPECT_EQ(subjects_of(with(complete_book(), &BookText::certificates, "2,2,2,2,0.7", "2,2,,2,0.7")),
            std::vector<std::string>{
                "V1: The newest certificate of V1 leaves out at some point what it showed as found (1 point)"});
}

}  // namespace
}  // namespace driftwarden::record_look_test

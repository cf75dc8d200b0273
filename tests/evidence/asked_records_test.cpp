// SPDX-License-Identifier: MIT
#include "evidence/asked_records.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/book_text.hpp"

namespace driftwarden::asked_records_test {
namespace {

// All that is missing of a book's sample S1, one a line.
const PackageNote with_all{"0.2.0", "2026-11-16", {}, true, true};

std::string lacks_of(const BookText& text, const PackageNote& note = with_all) {
  JudgedBook book(text);
  RecordsUsed used;
  used.note(book.screening(), book.result("S1"));
  used.follow(book.screening());
  std::string all;
  for (const AskedRecord& record : asked_records(book.screening(), used, note)) {
    EXPECT_FALSE(record.what.empty() || record.asked_by.empty() || record.place.empty());
    for (const std::string& lack : record.missing) all += lack + "\n";
  }
  return all;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// S1 with everything that can be said of it.
BookText complete() {
  BookText text;
  text.instruments = "instrument,kind,principle,serial,interval [d]\nP1,pump,,11,\nV1,calibrator,volumetric,12,365\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],issuer,"
      "standard,temperature [°C],pressure [kPa],expanded uncertainty [L/min],coverage factor,tolerance [%]\n"
      "C1,V1,2026-01-05,2,2,2,2,Lab,N-1,20,100,0.01,2,1\n";
  text.samples =
      "sample,pump,started,stopped,method,sampler,temperature [°C],pressure [kPa]\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00,M-1,cyclone,20,100\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa],by,void,note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,20,100,AB,,\n"
      "2026-09-21T07:31,pre,S1,V1,2.000,20,100,AB,,\n"
      "2026-09-21T07:32,pre,S1,V1,9.000,20,100,AB,yes,slipped\n"
      "2026-09-21T16:10,post,S1,V1,1.950,20,100,AB,,\n"
      "2026-09-21T16:11,post,S1,V1,1.951,20,100,AB,,\n";
  return text;
}

TEST(AskedRecords, MissNothingWhereEverythingIsSaid) { EXPECT_EQ(lacks_of(complete()), ""); }

TEST(AskedRecords, SayWhatNoBookHas) {
  JudgedBook book(complete());
  std::string all;
  for (const AskedRecord& record : asked_records(book.screening(), {}, with_all)) {
    for (const std::string& other : record.elsewhere) all += other + "\n";
  }
  EXPECT_TRUE(has(all, "maker, type, firmware")) << all;
  EXPECT_TRUE(has(all, "trained and authorised")) << all;
  EXPECT_TRUE(has(all, "earlier states of the files")) << all;
}

TEST(AskedRecords, CountAndNameWhatIsMissing) {
  const std::string lacks = lacks_of({});
  for (const char* lack :
       {"serial number: for 2 of 2 instruments (P1, V1)\n", "issuer: for 1 of 1 certificates (C1)\n",
        "standard: for 1 of 1 certificates (C1)\n", "uncertainty: for 1 of 1 certificates (C1)\n",
        "due date, and interval of the instrument: for 1 of 1 certificates (C1)\n",
        "tolerance: for 1 of 1 certificates (C1)\n", "figures as found: for 1 of 1 certificates (C1)\n",
        "temperature or pressure: for 1 of 1 certificates (C1)\n",
        "temperature: for 2 of 2 readings (readings.csv:2, readings.csv:3)\n",
        "who took them: for 2 of 2 readings (readings.csv:2, readings.csv:3)\n", "method: for 1 of 1 samples (S1)\n",
        "sampler: for 1 of 1 samples (S1)\n", "temperature of their own: for 1 of 1 samples (S1)\n"})
    EXPECT_TRUE(has(lacks, lack)) << lack << "\n" << lacks;
  EXPECT_FALSE(has(lacks, "as left"));
}

TEST(AskedRecords, NameCalibratorsWithoutACertificate) {
  BookText text;
  text.certificates = "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n";
  EXPECT_TRUE(has(lacks_of(text), "certificate: for 1 of 1 calibrators (V1)\n")) << lacks_of(text);
}

TEST(AskedRecords, NameStruckOutReadingsThatDoNotSayWhy) {
  BookText text = complete();
  text.readings.replace(text.readings.find("slipped"), 7, "");
  EXPECT_TRUE(has(lacks_of(text), "reason: for 1 of 1 struck-out readings (readings.csv:4)\n")) << lacks_of(text);
}

TEST(AskedRecords, ShowSixNamesAndCountTheRest) {
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 10; i < 20; ++i) text.readings += "2026-09-21T07:" + std::to_string(i) + ",pre,S1,V1,2.000\n";
  EXPECT_TRUE(has(lacks_of(text), "readings.csv:6, readings.csv:7 and 4 more)\n")) << lacks_of(text);
}

TEST(AskedRecords, SayWhenThePackageLacksChartsOrASignature) {
  PackageNote without = with_all;
  without.has_charts = without.is_signed = false;
  EXPECT_FALSE(has(lacks_of({}), "charts:"));
  EXPECT_FALSE(has(lacks_of({}), "a signature:"));
  EXPECT_TRUE(has(lacks_of({}, without), "charts: they could not be drawn"));
  EXPECT_TRUE(has(lacks_of({}, without), "a signature: this package is not signed"));
  without.charts_of = ChartsOf::none;
  EXPECT_TRUE(has(lacks_of({}, without), "charts: none were asked for; their figures are"));
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
  text.replace(text.find(from), from.size(), to);
  return text;
}

TEST(AskedRecords, TakeFiguresAsFoundForThoseAsLeftWhereNothingWasAdjusted) {
  BookText text = complete();
  text.certificates = changed(text.certificates, "2,2,2,2,Lab", "2,2,2,,Lab");
  EXPECT_EQ(lacks_of(text), "");
  text.certificates = changed(text.certificates, "2,2,2,,Lab", "2,2,,,Lab");
  EXPECT_TRUE(has(lacks_of(text), "figures as left, or as found where nothing was adjusted: for 1 of 1 certificates"))
      << lacks_of(text);
}

TEST(AskedRecords, NameEachConditionThatIsMissing) {
  for (const char* half : {",,100,", ",20,,"}) {
    BookText text = complete();
    text.certificates = changed(text.certificates, ",20,100,", half);
    EXPECT_EQ(lacks_of(text), "temperature or pressure: for 1 of 1 certificates (C1)\n") << half;
  }
  BookText text = complete();
  text.readings = changed(text.readings, "V1,2.000,20,100", "V1,2.000,20,");
  EXPECT_TRUE(has(lacks_of(text), "pressure: for 1 of 5 readings (readings.csv:2)\n")) << lacks_of(text);
  text = complete();
  text.samples = changed(text.samples, "cyclone,20,100", "cyclone,20,");
  EXPECT_TRUE(has(lacks_of(text), "pressure of their own: for 1 of 1 samples (S1)\n")) << lacks_of(text);
}

TEST(AskedRecords, NameSamplesWithoutAStartOrAStop) {
  for (const char* moment : {"2026-09-21T08:00", "2026-09-21T16:00"}) {
    BookText text = complete();
    text.samples = changed(text.samples, moment, "");
    EXPECT_TRUE(has(lacks_of(text), "start or stop: for 1 of 1 samples (S1)\n")) << lacks_of(text);
  }
}

TEST(AskedRecords, NameSamplesWhoseVolumeIsNotKnownTo) {
  EXPECT_FALSE(has(lacks_of(complete()), "uncertainty of the volume"));
  BookText text = complete();
  text.certificates = changed(text.certificates, ",0.01,2,1", ",,2,1");
  EXPECT_TRUE(
      has(lacks_of(text), "uncertainty of the volume (the working says what is not known): for 1 of 1 samples (S1)\n"))
      << lacks_of(text);
}

TEST(AskedRecords, CountTheRulesWhoseLimitNobodyRead) {
  const Book book = book_of(complete());
  RuleSet rules = RulesText{{{Subject::sample, "drift", "within", {"5 %"}},
                             {Subject::sample, "volume", "at_least", {"400 L"}},
                             {Subject::sample, "minutes", "at_least", {"60 min"}}}}
                      .rule_set();
  const auto lack = [&] {
    const Screening screening(book, rules);
    std::string all;
    for (const AskedRecord& record : asked_records(screening, {}, with_all)) {
      for (const std::string& missing : record.missing) all += missing;
    }
    return all;
  };
  EXPECT_FALSE(has(lack(), "nobody read"));
  rules.rules[0].standing = Standing::memory;
  EXPECT_TRUE(has(lack(), "1 rule in force has a limit that nobody read in its source")) << lack();
  rules.rules[1].standing = Standing::memory;
  EXPECT_TRUE(has(lack(), "2 rules in force have a limit that nobody read in its source")) << lack();
}

}  // namespace
}  // namespace driftwarden::asked_records_test

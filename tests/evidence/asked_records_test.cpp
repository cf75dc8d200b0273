// SPDX-License-Identifier: MIT
#include "driftwarden/evidence/asked_records.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/book_text.hpp"

namespace driftwarden {
namespace {

// All that is missing of a book's sample S1, one a line.
std::string lacks_of(const BookText& text, const PackageFacts& facts = {true, true}) {
  JudgedBook book(text);
  RecordsUsed used;
  used.note(book.screening(), book.result("S1"));
  used.follow(book.screening());
  std::string all;
  for (const AskedRecord& record : asked_records(book.screening(), used, facts)) {
    EXPECT_FALSE(record.what.empty() || record.asked_by.empty() || record.place.empty());
    for (const std::string& lack : record.lacks) all += lack + "\n";
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

TEST(AskedRecords, MissOnlyWhatNoBookHasWhereEverythingIsSaid) {
  const std::string lacks = lacks_of(complete());
  EXPECT_FALSE(has(lacks, " of ") && has(lacks, ": S1")) << lacks;
  for (const char* counted :
       {" instruments ", "certificates give", "certificates name", "certificates state", "readings ", "samples "})
    EXPECT_FALSE(has(lacks, "1 of 1" + std::string(counted))) << lacks;
  EXPECT_TRUE(has(lacks, "maker, type, firmware")) << "what has no column is always missing";
}

TEST(AskedRecords, CountAndNameWhatIsMissing) {
  const std::string lacks = lacks_of({});
  for (const char* lack :
       {"2 of 2 instruments give no serial number: P1, V1\n", "1 of 1 certificates do not say who issued them: C1\n",
        "1 of 1 certificates name no standard: C1\n", "1 of 1 certificates state no uncertainty: C1\n",
        "1 of 1 certificates state no tolerance: C1\n",
        "1 of 1 certificates do not say how the instrument was found: C1\n",
        "1 of 1 certificates give no temperature and pressure: C1\n",
        "2 of 2 readings give no temperature: readings.csv:2, readings.csv:3\n",
        "2 of 2 readings do not say who took them: readings.csv:2, readings.csv:3\n",
        "1 of 1 samples name no method: S1\n", "1 of 1 samples name no sampler: S1\n"})
    EXPECT_TRUE(has(lacks, lack)) << lack << "\n" << lacks;
  EXPECT_FALSE(has(lacks, "how the instrument was left"));
}

TEST(AskedRecords, NameCalibratorsWithoutACertificate) {
  BookText text;
  text.certificates = "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n";
  EXPECT_TRUE(has(lacks_of(text), "1 of 1 calibrators have no certificate here: V1\n")) << lacks_of(text);
}

TEST(AskedRecords, NameStruckOutReadingsThatDoNotSayWhy) {
  BookText text = complete();
  text.readings.replace(text.readings.find("slipped"), 7, "");
  EXPECT_TRUE(has(lacks_of(text), "1 of 1 struck-out readings do not say why: readings.csv:4\n")) << lacks_of(text);
}

TEST(AskedRecords, ShowSixNamesAndCountTheRest) {
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 10; i < 20; ++i) text.readings += "2026-09-21T07:" + std::to_string(i) + ",pre,S1,V1,2.000\n";
  EXPECT_TRUE(has(lacks_of(text), "readings.csv:6, readings.csv:7 and 4 more\n")) << lacks_of(text);
}

TEST(AskedRecords, SayWhenThePackageLacksChartsOrASignature) {
  EXPECT_FALSE(has(lacks_of({}), "charts:"));
  EXPECT_FALSE(has(lacks_of({}), "a signature:"));
  EXPECT_TRUE(has(lacks_of({}, {false, false}), "charts: they could not be drawn"));
  EXPECT_TRUE(has(lacks_of({}, {false, false}), "a signature: this package is not signed"));
}

}  // namespace
}  // namespace driftwarden

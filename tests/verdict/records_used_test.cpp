// SPDX-License-Identifier: MIT
#include "verdict/records_used.hpp"

#include <gtest/gtest.h>

#include "support/laboratory_book.hpp"

namespace driftwarden::records_used_test {
namespace {

RecordsUsed used_by(JudgedBook& book, const char* sample) {
  RecordsUsed used;
  used.note(book.screening(), book.result(sample));
  used.follow(book.screening());
  return used;
}

// V1 was compared with V2 by C1; V2's own certificate names no instrument of the book.
BookText two_samples() {
  BookText text;
  text.instruments += "V3,calibrator,volumetric\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],standard\n"
      "C1,V1,2026-01-05,2,2,2,V2\n"
      "C2,V2,2026-01-04,2,2,2,N-1\n"
      "C3,V3,2026-01-04,2,2,2,\n"
      "C4,V2,2026-02-04,2,2,2,\n";
  text.samples += "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings +=
      "2026-09-21T07:30,pre,S2,V3,2.000\n"
      "2026-09-21T16:10,post,S2,V3,1.950\n";
  text.decisions = "decided,by,subject,rule,ruling,reason\n2026-09-22T08:00,A,S2,own/drift,uphold,b\n";
  return text;
}

TEST(RecordsUsed, AreThoseThatASampleLeansOn) {
  JudgedBook book(two_samples());
  const RecordsUsed used = used_by(book, "S2");
  EXPECT_EQ(used.samples, std::set<Row>{1});
  EXPECT_EQ(used.readings, (std::set<Row>{2, 3}));
  EXPECT_EQ(used.instruments, (std::set<Row>{1, 4})) << "P2 and V3";
  EXPECT_EQ(used.certificates, std::set<Row>{2}) << "C3";
  EXPECT_EQ(used.decisions, std::set<Row>{0});
}

TEST(RecordsUsed, AreTheResultsOfASampleAndOfItsBlanks) {
  JudgedBook book(laboratory_book(std::string(weighed) + "K1,dust,14,14.1,,\n"));
  const RecordsUsed used = used_by(book, "S1");
  EXPECT_EQ(used.results, (std::set<Row>{0, 1, 2}));
  EXPECT_EQ(used.samples, (std::set<Row>{0, 1, 2})) << "S1, B1 and B2";
}

TEST(RecordsUsed, FollowTheStandardsAsFarAsTheBookHasThem) {
  JudgedBook book(two_samples());
  const RecordsUsed used = used_by(book, "S1");
  EXPECT_EQ(used.certificates, (std::set<Row>{0, 1})) << "C1, and C2, which was in force when C1 was made";
  EXPECT_EQ(used.instruments, (std::set<Row>{0, 2, 3})) << "P1, V1 and V2";
  EXPECT_TRUE(used.decisions.empty());
}

TEST(RecordsUsed, FollowACertificateByItsNameAndNeverInACircle) {
  BookText text = two_samples();
  text.certificates.replace(text.certificates.find("2,V2\n"), 5, "2,C2\n");
  text.certificates.replace(text.certificates.find("N-1"), 3, "C1");
  JudgedBook book(text);
  EXPECT_EQ(used_by(book, "S1").certificates, (std::set<Row>{0, 1}));
}

TEST(RecordsUsed, AreCalibratorsWithoutACertificateToo) {
  BookText text = two_samples();
  text.certificates.erase(text.certificates.find("C3"), text.certificates.find("C4") - text.certificates.find("C3"));
  JudgedBook book(text);
  const RecordsUsed used = used_by(book, "S2");
  EXPECT_EQ(used.instruments, (std::set<Row>{1, 4})) << "P2 and V3";
  EXPECT_TRUE(used.certificates.empty());
}

TEST(RecordsUsed, FollowAStandardToTheFirstCertificateOfTheBook) {
  BookText text = two_samples();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],standard\n"
      "C2,V2,2026-01-04,2,2,2,N-1\nC1,V1,2026-01-05,2,2,2,V2\n";
  JudgedBook book(text);
  EXPECT_EQ(used_by(book, "S1").certificates, (std::set<Row>{0, 1}));
}

TEST(RecordsUsed, AreTheServicesOfTheirInstruments) {
  BookText text = two_samples();
  text.service =
      "serviced,instrument,what\n2026-03-01T08:00,P1,diaphragm\n2026-03-02T08:00,P2,battery\n2026-03-03T08:00,V1,"
      "cleaned\n";
  JudgedBook book(text);
  EXPECT_EQ(used_by(book, "S1").services, (std::set<Row>{0, 2}));
  EXPECT_EQ(used_by(book, "S2").services, std::set<Row>{1});
}

TEST(RecordsUsed, NameNoSampleWhoseVolumeIsKnownAndNoBlank) {
  BookText text = nominal_book();
  JudgedBook book(text);
  EXPECT_TRUE(used_by(book, "S1").without_uncertainty.empty());
  text.samples += "B1,,,,\n";
  text.samples.replace(text.samples.find("sample,pump"), 11, "sample,kind,pump");
  text.samples.replace(text.samples.find("S1,P1"), 5, "S1,sample,P1");
  text.samples.replace(text.samples.find("B1,,"), 4, "B1,blank,,");
  JudgedBook with_blank(text);
  EXPECT_TRUE(used_by(with_blank, "B1").without_uncertainty.empty());
}

TEST(RecordsUsed, NameTheSamplesWhoseVolumeHasNoUncertainty) {
  BookText text = two_samples();
  text.samples += "S3,P2,,\n";
  JudgedBook book(text);
  EXPECT_EQ(used_by(book, "S3").without_uncertainty, std::vector<Row>{2});
}

}  // namespace
}  // namespace driftwarden::records_used_test

// SPDX-License-Identifier: MIT
#include "assessment/certificate_uncertainty.hpp"

#include <gtest/gtest.h>

#include <utility>

#include "assessment/worked_budget.hpp"

namespace driftwarden::certificate_uncertainty_test {
namespace {

// derived: straight lines between the points of the certificate, and U over its coverage factor.

// Points at 1.000 and 3.060 L/min: errors 0 and 2 %, U 1 % and 2 % of the reference.
BookText two_points(const std::string& coverage_factor = "2") {
  BookText text = worked_book();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
      "[%],coverage factor\n"
      "C1,V1,2026-01-05,1,1.000,1.000,1," +
      coverage_factor +
      "\n"
      "C1,V1,2026-01-05,3,3.000,3.060,2," +
      coverage_factor + "\n";
  return text;
}

CertificateUncertainty known_of(const BookText& text) {
  const BudgetedBook book(text);
  return certificate_uncertainty(book.basis, *book.figures.pre_set());
}

TEST(CertificateUncertainty, LiesBetweenItsPointsInProportion) {
  const double share = (2.0112 - 1) / 2.06;  // of the way, at the mean indication of the pre set
  const CertificateUncertainty known = known_of(two_points());
  EXPECT_NEAR(known.error, share * 0.02, 1e-12);
  EXPECT_NEAR(known.standard, (0.01 + share * 0.01) / 2, 1e-12);
  EXPECT_NEAR(known.interpolation_half_width, 4 * share * (1 - share) * 0.02 / 2, 1e-12);
}

TEST(CertificateUncertainty, TakesTheCertificatesOwnCoverageFactorAndElseTwo) {
  const double by_two = known_of(two_points("2")).standard;
  EXPECT_EQ(known_of(two_points("")).standard, by_two);
  EXPECT_NEAR(known_of(two_points("3")).standard, by_two * 2 / 3, 1e-12);
}

// derived: U 1 % by the first, 2 % by the second, which is in force from the second reading on; and the other way
// round.
TEST(CertificateUncertainty, OfASetWithTwoIsThatOfTheWorse) {
  for (const char* expanded : {"1", "2"}) {
    BookText text = worked_book();
    text.certificates =
        "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty [%]\n"
        "C1,V1,2026-01-05,2,2,2," +
        std::string(expanded) + "\nC2,V1,2026-09-21,2,2,2," + (*expanded == '1' ? "2" : "1") + "\n";
    text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-21T00:10,2026-09-21T08:00\n";
    text.readings =
        "taken,stage,sample,calibrator,reading [L/min]\n2026-09-20T23:59,pre,S1,V1,2.0\n"
        "2026-09-21T00:01,pre,S1,V1,2.0\n2026-09-21T08:10,post,S1,V1,2.0\n";
    const BudgetedBook book(text);
    EXPECT_NEAR(certificate_uncertainty(book.basis, *book.figures.pre_set()).standard, 0.01, 1e-12);
    EXPECT_EQ(book.line(BudgetSource::certificate), nullptr);  // what both sets lean on is not one certificate
  }
}

TEST(CertificateUncertainty, AtAPointIsThePointsAndAllowsForNoBow) {
  BookText text = two_points();
  replace_all(text.certificates, "1,1.000,1.000,1", "2,2.0112,2.0112,1");
  const CertificateUncertainty known = known_of(text);
  EXPECT_NEAR(known.standard, 0.005, 1e-9);
  EXPECT_NEAR(known.interpolation_half_width, 0, 1e-9);
}

// derived: between 2 and 3 L/min, whatever the order of the points: errors 0 and 2 % there; reference 2.5 of 2.55
// shown.
TEST(CertificateUncertainty, LiesBetweenTheNextPointsInWhateverOrder) {
  for (const char* rows : {"1,1,1,1;2,2,2,1;2.5,2.5,2.55,2;4,4,4,9", "4,4,4,9;2.5,2.5,2.55,2;2,2,2,1;1,1,1,1"}) {
    BookText text = worked_book();
    text.certificates =
        "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
        "[%]\n";
    std::string row;
    for (const char c : std::string(rows) + ";") {
      if (c != ';') row += c;
      if (c == ';') text.certificates += "C1,V1,2026-01-05," + std::exchange(row, "") + "\n";
    }
    const CertificateUncertainty known = known_of(text);
    const double share = (2.0112 - 2) / 0.55;
    EXPECT_NEAR(known.standard, (0.01 + share * 0.01) / 2, 1e-12) << rows;
    EXPECT_NEAR(known.interpolation_half_width, 4 * share * (1 - share) * 0.02 / 2, 1e-12) << rows;
  }
}

// The earlier of two certificates states no uncertainty: nobody knows how well the set is known.
TEST(CertificateUncertainty, OfASetWithTwoIsMissingWhereTheEarlierSaysNothing) {
  BookText text = worked_book();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty [%]\n"
      "C1,V1,2026-01-05,2,2,2,\nC2,V1,2026-09-21,2,2,2,1\n";
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-21T00:10,2026-09-21T08:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n2026-09-20T23:59,pre,S1,V1,2.0\n"
      "2026-09-21T00:01,pre,S1,V1,2.0\n2026-09-21T08:10,post,S1,V1,2.0\n";
  EXPECT_TRUE(is_missing(known_of(text).standard));
}

TEST(CertificateUncertainty, BeyondThePointsIsThatOfTheNearest) {
  BookText text = two_points();
  replace_all(text.certificates, "1,1.000,1.000,1", "2.5,2.500,2.500,1");
  const CertificateUncertainty known = known_of(text);
  EXPECT_NEAR(known.standard, 0.005, 1e-12);
  EXPECT_EQ(known.interpolation_half_width, 0);
}

TEST(CertificateUncertainty, IsMissingWithoutACertificateOrItsUncertainty) {
  BookText text = worked_book();
  text.certificates = "";
  EXPECT_TRUE(is_missing(known_of(text).standard));
  text = worked_book();
  replace_all(text.certificates, ",0.020,2\n", ",,2\n");
  EXPECT_TRUE(is_missing(known_of(text).standard));
}

}  // namespace
}  // namespace driftwarden::certificate_uncertainty_test

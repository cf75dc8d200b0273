// SPDX-License-Identifier: MIT
#include "report/traceability_text.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::traceability_text_test {
namespace {

constexpr const char* headings =
    "certificate,instrument,calibrated,due,standard,issuer,nominal [L/min],reference [L/min],as left [L/min],"
    "expanded uncertainty [%],coverage factor\n";

std::string chain_text(const std::string& certificates, const std::string& readings = "") {
  BookText text;
  text.certificates = headings + certificates;
  if (!readings.empty()) text.readings = "taken,stage,sample,calibrator,reading [L/min]\n" + readings;
  JudgedBook judged(text);
  return traceability_text(judged.screening(), judged.figures("S1"), 100);
}

const std::string good_standard = "P,V2,2026-01-05,,national prover,National lab,2,2,2,0.25,2\n";

TEST(TraceabilityText, GoesThroughTheStandardsToWhereTheBookEnds) {
  EXPECT_EQ(chain_text("C,V1,2026-03-01,2027-03-01,V2,Our room,2,2,2,0.7,2\n" + good_standard),
            "  pre, post sets, read with\n"
            "    V1, by certificate C of 2026-03-01, Our room, U 0.70 % (k = 2) [certificates.csv:2]\n"
            "    against V2, by certificate P of 2026-01-05, National lab, U 0.25 % (k = 2) [certificates.csv:3]\n"
            "    against 'national prover', which the book does not hold: what stands behind it is known\n"
            "    elsewhere\n");
}

TEST(TraceabilityText, NamesEveryGap) {
  const std::string text = chain_text("C,V1,2026-03-01,2026-09-01,V2,,2,2,2,,\n");
  EXPECT_NE(text.find("      - gap: the certificate states no uncertainty\n"), std::string::npos) << text;
  EXPECT_NE(text.find("      - gap: the certificate does not say who issued it\n"), std::string::npos) << text;
  EXPECT_NE(text.find("      - gap: it was due on 2026-09-01 and relied on on 2026-09-21\n"), std::string::npos)
      << text;
  EXPECT_NE(text.find("      - gap: no certificate of V2 was in force on 2026-03-01; the chain ends here\n"),
            std::string::npos)
      << text;
}

TEST(TraceabilityText, NamesAStandardThatIsNotGiven) {
  EXPECT_NE(chain_text("C,V1,2026-03-01,,,Our room,2,2,2,0.7,\n").find("does not say what it was made against"),
            std::string::npos);
  EXPECT_NE(chain_text("C,V1,2026-03-01,,,Our room,2,2,2,0.7,\n").find("no coverage factor of its uncertainty"),
            std::string::npos);
}

TEST(TraceabilityText, CountsThePointsWithoutUncertainty) {
  EXPECT_NE(chain_text("C,V1,2026-03-01,,x,Our room,2,2,2,0.7,2\nC,V1,2026-03-01,,x,Our room,3,3,3,,2\n")
                .find("no uncertainty at 1 of its 2 points"),
            std::string::npos);
}

TEST(TraceabilityText, ComesToTheEndOfARing) {
  const std::string text =
      chain_text("C,V1,2026-03-01,,V2,Our room,2,2,2,0.7,2\nD,V2,2026-03-01,,V1,Our room,2,2,2,0.7,2\n");
  EXPECT_NE(text.find("- gap: its standard, 'V1', leans on this chain itself: a ring\n"), std::string::npos) << text;
}

TEST(TraceabilityText, SaysWhereANamedCertificateWasNotInForce) {
  const std::string text = chain_text("C,V1,2026-03-01,,P,Our room,2,2,2,0.7,2\n" + good_standard +
                                      "Q,V2,2026-02-05,,national prover,National lab,2,2,2,0.25,2\n");
  EXPECT_NE(text.find("- gap: it was not in force on 2026-03-01: Q was\n"), std::string::npos) << text;
}

TEST(TraceabilityText, ShowsEachCalibratorOnce) {
  const std::string text = chain_text("C,V1,2026-03-01,,x,Our room,2,2,2,0.7,2\n" + good_standard,
                                      "2026-09-21T07:30,pre,S1,V1,2.0\n2026-09-21T12:30,field,S1,V1,2.0\n"
                                      "2026-09-21T16:10,post,S1,V2,2.0\n");
  EXPECT_EQ(text.find("  pre, field sets, read with\n    V1"), 0U) << text;
  EXPECT_NE(text.find("  post set, read with\n    V2"), std::string::npos) << text;
}

TEST(TraceabilityText, OfASampleWithoutSetsIsEmpty) {
  EXPECT_EQ(chain_text("C,V1,2026-03-01,,x,Our room,2,2,2,0.7,2\n", "2026-09-21T07:30,pre,S2,V1,2.0\n"), "");
}

}  // namespace
}  // namespace driftwarden::traceability_text_test

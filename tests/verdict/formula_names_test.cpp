// SPDX-License-Identifier: MIT
#include "verdict/formula_names.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::formula_names_test {
namespace {

Diagnostics remarks_on(const std::string& samples) {
  BookText text;
  text.samples = samples;
  return formula_names(book_of(text));
}

TEST(FormulaNames, AreToldOnceAKindWithTheFirst) {
  const Diagnostics remarks = remarks_on(
      "sample,batch,pump,started,stopped\n"
      "=1+1,B1,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "@x,-2,P1,2026-09-22T08:00,2026-09-22T16:00\n"
      "S-1,-2,P1,2026-09-23T08:00,2026-09-23T16:00\n");
  ASSERT_EQ(remarks.size(), 2U);
  EXPECT_EQ(to_text(remarks[0]),
            "samples.csv:2: remark: the name of the sample '=1+1', and 1 more like it, would be run as a formula by a "
            "spreadsheet that opens a CSV of results; let no name begin with '=', '+', '-' or '@', or have the "
            "spreadsheet read all as text [name/formula]");
  EXPECT_EQ(remarks[1].place, (Place{"samples.csv", 3, 0}));
  EXPECT_NE(remarks[1].message.find("the batch '-2' would be run"), std::string::npos) << remarks[1].message;
}

TEST(FormulaNames, OfASoundBookAreNone) {
  EXPECT_TRUE(remarks_on("sample,pump,started,stopped\nS=1,P1,2026-09-21T08:00,2026-09-21T16:00\n").empty());
}

TEST(FormulaNames, OfInstrumentsAndCertificatesAreTold) {
  BookText text;
  text.instruments += "=V3,calibrator,volumetric\nV4,calibrator,volumetric\n";
  text.certificates += "+C3,V1,2026-02-05,2,2,2\nC4,V1,2026-03-05,2,2,2\n";
  const Diagnostics remarks = formula_names(book_of(text));
  ASSERT_EQ(remarks.size(), 2U);
  EXPECT_NE(to_text(remarks[0]).find("the instrument '=V3' would be run"), std::string::npos) << to_text(remarks[0]);
  EXPECT_NE(to_text(remarks[1]).find("the certificate '+C3' would be run"), std::string::npos) << to_text(remarks[1]);
}

TEST(FormulaNames, OfAnalytesAreTold) {
  BookText text;
  text.results = "sample,analyte,amount [mg]\nS1,=dust,1\n";
  const Diagnostics remarks = formula_names(book_of(text));
  ASSERT_EQ(remarks.size(), 1U);
  EXPECT_NE(to_text(remarks[0]).find("the analyte '=dust' would be run"), std::string::npos) << to_text(remarks[0]);
}

}  // namespace
}  // namespace driftwarden::formula_names_test

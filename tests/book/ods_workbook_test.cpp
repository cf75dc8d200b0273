// SPDX-License-Identifier: MIT
#include "book/workbook.hpp"

#include <gtest/gtest.h>

#include "book/written_workbook.hpp"

namespace driftwarden::ods_workbook_test {
namespace {

std::string sheet(const std::string& rows) {
  return ods("<table:table table:name=\"week 46\">" + rows + "</table:table>");
}
std::string row(const std::string& cells) {
  return first_sheet(sheet("<table:table-row>" + cells + "</table:table-row>"));
}
std::string cell(const std::string& attributes, const std::string& shown) {
  return "<table:table-cell " + attributes + "><text:p>" + shown + "</text:p></table:table-cell>";
}

TEST(OdsWorkbook, TellsCellsByTheirType) {
  EXPECT_EQ(row(cell("office:value-type=\"float\" office:value=\"2.001\"", "2.0")), "1: A=2.001/0/0\n");
  EXPECT_EQ(row(cell("office:value-type=\"float\" office:value=\"7\"", "007")), "1: A=7/0/3\n");
  EXPECT_EQ(row(cell("office:value-type=\"percentage\" office:value=\"0.05\"", "5 %")), "1: A=0.05/1/0\n");
  EXPECT_EQ(row(cell("office:value-type=\"date\" office:date-value=\"2026-11-03T07:15:00\"", "3.11.26")),
            "1: A=moment 2026-11-03T07:15:00\n");
  EXPECT_EQ(row(cell("office:value-type=\"time\" office:time-value=\"PT26H30M00S\"", "26:30")),
            "1: A=duration 1.1041666666666667\n");
  EXPECT_EQ(row(cell("office:value-type=\"boolean\" office:boolean-value=\"true\"", "TRUE")), "1: A=true\n");
  EXPECT_EQ(row(cell("office:value-type=\"string\"", "a<text:s text:c=\"2\"/>b<text:span>c</text:span>")),
            "1: A='a  bc'\n");
}

TEST(OdsWorkbook, TellsErrorsAndFormulasWithoutAResult) {
  EXPECT_EQ(row(cell("office:value-type=\"string\" calcext:value-type=\"error\"", "#N/A")), "1: A=error #N/A\n");
  EXPECT_EQ(row(cell("table:formula=\"of:=NA()\" office:value-type=\"string\"", "Err:502")), "1: A=error Err:502\n");
  EXPECT_EQ(row("<table:table-cell table:formula=\"of:=1\"/>"), "1: A=not worked out\n");
  EXPECT_EQ(row(cell("table:formula=\"of:=1\" office:value-type=\"float\" office:value=\"1\"", "1")), "1: A=1/0/0\n");
}

TEST(OdsWorkbook, KeepsParagraphsAndPassesOverComments) {
  EXPECT_EQ(row("<table:table-cell office:value-type=\"string\"><office:annotation><text:p>comment</text:p>"
                "</office:annotation><text:p>a</text:p><text:p>b</text:p></table:table-cell>"),
            "1: A='a\nb'\n");
}

TEST(OdsWorkbook, RepeatsCellsAndRows) {
  EXPECT_EQ(first_sheet(sheet("<table:table-row table:number-rows-repeated=\"1000\"><table:table-cell "
                              "table:number-columns-repeated=\"16384\"/></table:table-row><table:table-row "
                              "table:number-rows-repeated=\"2\"><table:table-cell table:number-columns-repeated=\"2\"/>"
                              "<table:table-cell table:number-columns-repeated=\"2\" office:value-type=\"float\" "
                              "office:value=\"1\"/></table:table-row><table:table-row "
                              "table:number-rows-repeated=\"4000000000\"><table:table-cell/></table:table-row>")),
            "1001: C=1/0/0 D=1/0/0\n1002: C=1/0/0 D=1/0/0\n");
  const std::string one = "office:value-type=\"float\" office:value=\"1\"";
  EXPECT_NE(row(cell("table:number-columns-repeated=\"4000000000\" " + one, "1")).find("[workbook/too-large]"),
            std::string::npos);
  EXPECT_NE(first_sheet(sheet("<table:table-row table:number-rows-repeated=\"4000000000\">" + cell(one, "1") +
                              "</table:table-row>"))
                .find("[workbook/too-large]"),
            std::string::npos);
}

TEST(OdsWorkbook, TellsWhatIsHiddenOrMerged) {
  EXPECT_EQ(first_sheet(sheet("<table:table-column/><table:table-column table:visibility=\"collapse\" "
                              "table:number-columns-repeated=\"2\"/><table:table-row table:visibility=\"filter\">" +
                              cell("table:number-rows-spanned=\"3\" office:value-type=\"string\"", "a") +
                              "</table:table-row>")),
            "columns B to C hidden\nmerged A1:A3\n1 hidden: A='a'\n");
  const std::string bytes = ods(
      "<table:table table:name=\"a\" table:style-name=\"t2\"/><table:table table:name=\"b\" table:style-name=\"t1\"/>",
      "<style:style style:name=\"t1\"><style:table-properties/></style:style><style:style style:name=\"t2\">"
      "<style:table-properties table:display=\"false\"/></style:style>");
  const auto workbook = open_workbook(bytes, "f.ods");
  ASSERT_EQ((*workbook)->sheets().size(), 2U);
  EXPECT_TRUE((*workbook)->sheets()[0].is_hidden);
  EXPECT_FALSE((*workbook)->sheets()[1].is_hidden);
}

TEST(OdsWorkbook, TellsALockedOne) {
  Parts parts = ods_parts("<table:table table:name=\"a\"/>");
  parts["META-INF/manifest.xml"] =
      "<m:manifest xmlns:m=\"u\"><m:file-entry><m:encryption-data/></m:file-entry></m:manifest>";
  EXPECT_NE(first_sheet(zipped(parts)).find("[workbook/encrypted]"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::ods_workbook_test

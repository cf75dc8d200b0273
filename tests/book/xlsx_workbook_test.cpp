// SPDX-License-Identifier: MIT
#include "book/workbook.hpp"

#include <gtest/gtest.h>

#include "book/written_workbook.hpp"

namespace driftwarden::xlsx_workbook_test {
namespace {

TEST(XlsxWorkbook, TellsCellsByTheirType) {
  EXPECT_EQ(first_sheet(
                xlsx("<row r=\"2\"><c r=\"A2\" t=\"s\"><v>0</v></c><c r=\"C2\"><v>2.0009999999999999</v></c>"
                     "<c r=\"D2\" s=\"2\"><v>46287.5</v></c><c r=\"E2\" t=\"b\"><v>1</v></c>"
                     "<c r=\"AA2\" t=\"e\"><v>#N/A</v></c></row>"
                     "<row r=\"4\" hidden=\"1\"><c t=\"inlineStr\"><is><r><t>in</t></r><r><t>line</t></r></is></c>"
                     "<c t=\"str\"><f>A1</f><v>of a formula</v></c><c s=\"3\"><f>1</f><v>7</v></c><c s=\"3\"/></row>")),
            "2: A='PUMP-1' C=2.001/0/0 D=46287.5/4/0 E=true AA=error #N/A\n"
            "4 hidden: A='inline' B='of a formula' C=7/0/3\n");
}

TEST(XlsxWorkbook, CountsDaysFrom1904WhereItSaysSo) {
  EXPECT_EQ(first_sheet(xlsx("<row><c s=\"2\"><v>44825.5</v></c><c s=\"4\"><v>0.25</v></c><c><v>44825</v></c></row>",
                             "<workbookPr date1904=\"true\"/>")),
            "1: A=46287.5/4/0 B=0.25/3/0 C=44825/0/0\n");
}

TEST(XlsxWorkbook, TellsFormulasWithoutAResult) {
  const std::string row = "<row><c><f>A2</f><v/></c><c><f>A3</f><v>0</v></c><c t=\"str\"><f>A4</f><v></v></c></row>";
  EXPECT_EQ(first_sheet(xlsx(row)), "1: A=not worked out B=0/0/0\n");
  EXPECT_EQ(first_sheet(xlsx(row, "<calcPr fullCalcOnLoad=\"1\"/>")),
            "1: A=not worked out B=not worked out C=not worked out\n");
}

TEST(XlsxWorkbook, TellsWhatIsHiddenOrMerged) {
  EXPECT_EQ(
      first_sheet(zipped(xlsx_parts("<cols><col min=\"2\" max=\"3\" hidden=\"1\"/></cols><sheetData><row><c><v>1</v>"
                                    "</c></row></sheetData><mergeCells><mergeCell ref=\"A2:A4\"/></mergeCells>"))),
      "columns B to C hidden\n1: A=1/0/0\nmerged A2:A4\n");
}

TEST(XlsxWorkbook, RefusesWhatHasNoOrder) {
  const auto why = [](const std::string& rows) { return first_sheet(xlsx(rows)); };
  EXPECT_NE(why("<row r=\"2\"/><row r=\"2\"/>").find("rows stand out of order"), std::string::npos);
  EXPECT_NE(why("<row r=\"2000000\"/>").find("more rows than a sheet can have"), std::string::npos);
  EXPECT_NE(why("<row><c r=\"B1\"/><c r=\"A1\"/></row>").find("cells stand out of order"), std::string::npos);
  EXPECT_NE(why("<row><c r=\"ZZZZ1\"/></row>").find("cells stand out of order"), std::string::npos);
  EXPECT_NE(why("<row><c t=\"s\"><v>9</v></c></row>").find("a text that is not there"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::xlsx_workbook_test

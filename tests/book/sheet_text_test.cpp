// SPDX-License-Identifier: MIT
#include "book/sheet_text.hpp"

#include <gtest/gtest.h>

#include "book/sheet_cell.hpp"
#include "book/written_book.hpp"
#include "book/written_workbook.hpp"

namespace driftwarden::sheet_text_test {
namespace {

// A sheet as text, with '|' for the separator.
SheetText made(const std::string& bytes, const std::vector<bool>& percent = {}) {
  const auto workbook = open_workbook(bytes, "f.xlsx");
  const SheetForm form{"f.xlsx:week 46", '.', [&](std::string_view, std::uint32_t) { return percent; }};
  Result<SheetText> text = sheet_text(**workbook, (*workbook)->sheets().front(), form);
  if (!text) return {told(text.faults()), 0, {}};
  for (char& c : text->text) c = c == sheet_separator ? '|' : c;
  return *std::move(text);
}
std::string cell(const char* name, const std::string& text) {
  return std::string("<c t=\"str\" r=\"") + name + "\"><v>" + text + "</v></c>";
}
std::string row(int number, const std::string& cells, const char* more = "") {
  return "<row r=\"" + std::to_string(number) + "\"" + more + ">" + cells + "</row>";
}

TEST(SheetText, HasALineForEachRowFromTheHeadingsOn) {
  const SheetText text = made(xlsx(row(3, cell("A3", "a") + cell("B3", "b")) + row(4, cell("B4", "x\ny")) +
                                   row(7, cell("A7", "z")) + row(9, "<c r=\"A9\"/>")));
  EXPECT_EQ(text.text, "a|b\n|\"x\ny\"\n\n\nz|\n");
  EXPECT_EQ(text.first_row, 3U);
}

TEST(SheetText, MakesEveryRowAsWideAsTheWidest) {
  EXPECT_EQ(made(xlsx(row(1, cell("A1", "a")) + row(2, cell("C2", "b")))).text, "a||\n||b\n");
}

TEST(SheetText, IsEmptyWhereNothingStands) { EXPECT_EQ(made(xlsx(row(1, "<c r=\"A1\" s=\"1\"/>"))).first_row, 0U); }

TEST(SheetText, ReadsPercentByTheHeading) {
  EXPECT_EQ(made(xlsx(row(1, cell("A1", "a") + cell("B1", "b")) +
                      "<row r=\"2\"><c s=\"1\"><v>0.05</v></c><c s=\"1\"><v>0.05</v></c></row>"),
                 {false, true})
                .text,
            "a|b\n0.05|5\n");
}

TEST(SheetText, RemarksOnWhatIsHiddenMergedOrMoved) {
  const SheetText text = made(zipped(xlsx_parts("<cols><col min=\"2\" max=\"2\" hidden=\"1\"/></cols><sheetData>" +
                                                row(1, cell("A1", "a")) + row(2, cell("A2", "x"), " hidden=\"1\"") +
                                                "<row r=\"3\"><c s=\"2\"><v>46287.3020833</v></c></row>" +
                                                "</sheetData><mergeCells><mergeCell ref=\"A2:A4\"/></mergeCells>")));
  EXPECT_EQ(
      told(text.remarks),
      "f.xlsx:week 46: remark: 1 row is hidden, and read all the same: row 2; delete what must not count, or strike it "
      "out by the columns of the table [workbook/hidden]\n"
      "f.xlsx:week 46: remark: 1 stretch of columns is hidden, and read all the same: column B; delete what must not "
      "count, or strike it out by the columns of the table [workbook/hidden]\n"
      "f.xlsx:week 46: remark: merged cells hold what they show in their first cell alone; the others are empty: "
      "A2:A4; write it into every cell that it is meant for [workbook/merged]\n"
      "f.xlsx:week 46: remark: 1 time was rounded to the second, by up to 3 ms: A3; times are whole seconds "
      "[workbook/rounded-time]\n");
}

TEST(SheetText, RefusesMoreCellsThanAreRead) {
  std::string rows = row(1, cell("XFD1", "a"));
  for (int i = 2; i < 1300; ++i) rows += row(i, cell(("A" + std::to_string(i)).c_str(), "b"));
  EXPECT_NE(made(xlsx(rows)).text.find("[workbook/too-large]"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::sheet_text_test

// SPDX-License-Identifier: MIT
#include "book/sheet_cell.hpp"

#include <gtest/gtest.h>

namespace driftwarden::sheet_cell_test {
namespace {

using Kind = SheetCell::Kind;
using Look = NumberLook::Kind;

std::string text_of(const SheetCell& cell, const CellManner& manner = {}) {
  std::string text;
  append_cell(text, cell, manner);
  return text.starts_with(fault_mark) ? cell_fault(text).id : text;
}
SheetCell number(double value, Look look = Look::plain, int digits = 0) {
  return {0, Kind::number, value, {look, digits}, {}};
}
SheetCell of_kind(Kind kind, const std::string& text, double value = 0) { return {0, kind, value, {}, text}; }
std::string serial(double value, Look look) { return text_of(number(value, look)); }

// A double as its shortest decimals.
TEST(CellText, WritesANumberWhateverItsLook) {
  EXPECT_EQ(text_of(number(2.001)), "2.001");                // echo: what the cell holds
  EXPECT_EQ(text_of(number(2.0009999999999999)), "2.001");   // echo: what the cell holds
  EXPECT_EQ(text_of(number(2.001), {',', false}), "2,001");  // echo: what the cell holds
  EXPECT_EQ(text_of(number(17)), "17");
  EXPECT_EQ(text_of(number(7, Look::plain, 3)), "007");
  EXPECT_EQ(text_of(number(7.5, Look::plain, 3)), "7.5");
}

TEST(CellText, ReadsPercentAsShownUnderAHeadingInPercent) {
  EXPECT_EQ(text_of(number(0.07, Look::percent), {'.', true}), "7");
  EXPECT_EQ(text_of(number(0.07, Look::percent)), "0.07");
  EXPECT_EQ(text_of(number(7), {'.', true}), "7");
}

// Day numbers: 46287 days from 1899-12-30 are 2026-09-22 (computed with Python 3.11:
// date(1899,12,30)+timedelta(46287)).
TEST(CellText, WritesDatesAndTimesToTheSecond) {
  EXPECT_EQ(serial(46287, Look::date), "2026-09-22");
  EXPECT_EQ(serial(46287, Look::date_time), "2026-09-22T00:00");
  EXPECT_EQ(serial(46287.302083333336, Look::date_time), "2026-09-22T07:15");  // derived: days × 24 h, to the second
  EXPECT_EQ(serial(46287.302083333336, Look::date), "2026-09-22T07:15");       // derived: days × 24 h, to the second
  EXPECT_EQ(serial(46287.302083333336, Look::time), "2026-09-22T07:15");       // derived: days × 24 h, to the second
  EXPECT_EQ(serial(0.302083333333333, Look::time), "07:15");                   // derived: days × 24 h, to the second
  EXPECT_EQ(serial(46287.99999999, Look::date_time), "2026-09-23T00:00");      // derived: days × 24 h, to the second
  EXPECT_EQ(serial(1.1041666666666667, Look::duration), "26:30");              // derived: days × 24 h, to the second
  EXPECT_EQ(text_of(of_kind(Kind::moment, "2026-09-22T07:14:59.997000000")), "2026-09-22T07:15");
  EXPECT_EQ(text_of(of_kind(Kind::moment, "2026-12-31T23:59:59.9Z")), "2027-01-01T00:00Z");
  EXPECT_EQ(text_of(of_kind(Kind::moment, "2026-09-22")), "2026-09-22");
}

TEST(CellText, TellsByHowMuchATimeWasMoved) {
  std::string out;
  // derived: days × 86,400 s, beside the whole second
  EXPECT_LT(append_cell(out, number(46287.302083333336, Look::date_time), {}), 0.01);
  // derived: 3.333e-8 d × 86,400,000 ms
  EXPECT_NEAR(append_cell(out, number(46287.30208330, Look::date_time), {}), 2.88, 0.01);
  EXPECT_NEAR(append_cell(out, of_kind(Kind::moment, "2026-09-22T07:14:59.997"), {}), 3, 1e-6);
}

TEST(CellText, RefusesDaysThatProgramsDisagreeOn) {
  EXPECT_EQ(serial(61, Look::date), "1900-03-01");
  EXPECT_EQ(serial(60, Look::date), "workbook/no-such-day");
  EXPECT_EQ(serial(-1, Look::date_time), "workbook/no-such-day");
  EXPECT_EQ(serial(2958465, Look::date), "9999-12-31");
  EXPECT_EQ(serial(2958466, Look::date), "workbook/no-such-day");
}

TEST(CellText, MarksCellsThatCantBeRead) {
  EXPECT_EQ(text_of(of_kind(Kind::error, "#N/A")), "workbook/error-cell");
  EXPECT_EQ(text_of(of_kind(Kind::not_worked_out, "")), "workbook/not-worked-out");
  std::string text;
  append_cell(text, of_kind(Kind::error, "#N/A"), {});
  EXPECT_EQ(shown_by_fault(text), "#N/A");
  EXPECT_EQ(cell_fault(text).message, "the cell shows an error: '#N/A'");
}

TEST(CellText, KeepsTextsAndQuotesThemWhereARowNeedsIt) {
  EXPECT_EQ(text_of(of_kind(Kind::text, "a \"b\"; c")), "a \"b\"; c");
  EXPECT_EQ(text_of(of_kind(Kind::text, "a\n\"b\"")), "\"a\n\"\"b\"\"\"");
  EXPECT_EQ(text_of(of_kind(Kind::text, "\"a\"")), "\"\"\"a\"\"\"");
  EXPECT_EQ(text_of(of_kind(Kind::boolean, "", 1)), "yes");
  EXPECT_EQ(text_of(of_kind(Kind::boolean, "", 0)), "no");
}

}  // namespace
}  // namespace driftwarden::sheet_cell_test

// SPDX-License-Identifier: MIT
#include "report/csv_text.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <string>

namespace driftwarden::csv_text_test {
namespace {

std::string cell(std::string_view text) {
  std::string out = "before,";
  append_csv(out, text);
  return out.substr(7);
}

TEST(CsvText, StandsAsItIsWhereNothingNeedsQuotes) {
  EXPECT_EQ(cell("TF46B-1"), "TF46B-1");
  EXPECT_EQ(cell("a;b c"), "a;b c");
  EXPECT_EQ(cell("Bø"), "Bø");
  EXPECT_EQ(cell(""), "");
}

// RFC 4180, section 2, rules 6 and 7.
TEST(CsvText, StandsInQuotesWhereItHoldsASeparatorAQuoteOrALineEnd) {
  EXPECT_EQ(cell("a,b"), "\"a,b\"");
  EXPECT_EQ(cell("a\"b"), "\"a\"\"b\"");
  EXPECT_EQ(cell("a\nb"), "\"a\nb\"");
  EXPECT_EQ(cell("a\rb"), "\"a\rb\"");
  EXPECT_EQ(cell("\""), "\"\"\"\"");
}

TEST(CsvTextForPeople, StaysTextInASpreadsheet) {
  const auto cell = [](std::string_view text) {
    std::string out;
    append_csv_for_people(out, text);
    return out;
  };
  EXPECT_EQ(cell("=1+1"), "'=1+1");
  EXPECT_EQ(cell("+1"), "'+1");
  EXPECT_EQ(cell("-1"), "'-1");
  EXPECT_EQ(cell("@SUM(A1,B1)"), "\"'@SUM(A1,B1)\"");
  EXPECT_EQ(cell("\t=1"), "'\t=1");
  EXPECT_EQ(cell("\r=1"), "\"'\r=1\"");
  EXPECT_EQ(cell("S-1 = 2"), "S-1 = 2");
  EXPECT_EQ(cell(""), "");
}

TEST(CsvText, IsExactForPrograms) {
  std::string out;
  append_csv(out, "=1+1");
  EXPECT_EQ(out, "=1+1");
}

TEST(CsvRow, IsCellsWithCommasBetweenAndALineEnd) {
  std::string out = "before\n";
  {
    CsvRow row(out);
    row.text("a,b");
    row.none();
    row.figure(1.5);
    row.count(12);
    row.plain("c");
    row.figure(std::numeric_limits<double>::quiet_NaN());
  }
  EXPECT_EQ(out, "before\n\"a,b\",,1.5,12,c,\n");
}

TEST(CsvRow, HoldsCellsOfAnyLengthAndNumber) {
  for (const std::size_t length : {0U, 1U, 199U, 200U, 201U, 1023U, 1024U, 5000U}) {
    std::string out;
    std::string expected;
    {
      CsvRow row(out);
      for (int cell = 0; cell < 30; ++cell) {
        row.text(std::string(length, 'x'));
        row.figure(0.1 + 0.2);
        expected += (cell == 0 ? "" : ",") + std::string(length, 'x') + ",0.30000000000000004";
      }
    }
    EXPECT_EQ(out, expected + "\n") << length;
  }
}

}  // namespace
}  // namespace driftwarden::csv_text_test

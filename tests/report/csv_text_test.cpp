// SPDX-License-Identifier: MIT
#include "report/csv_text.hpp"

#include <gtest/gtest.h>

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

}  // namespace
}  // namespace driftwarden::csv_text_test

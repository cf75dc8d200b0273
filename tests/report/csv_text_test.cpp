// SPDX-License-Identifier: MIT
#include "driftwarden/report/csv_text.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "driftwarden/quantity/number.hpp"

namespace driftwarden {
namespace {

std::string cell(std::string_view text) {
  std::string out = "before,";
  append_csv(out, text);
  return out.substr(7);
}

std::string figure(double value) {
  std::string out;
  append_figure(out, value);
  return out;
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

TEST(CsvFigure, IsTheShortestTextThatReadsBackToTheSameDouble) {
  EXPECT_EQ(figure(480), "480");
  EXPECT_EQ(figure(1.975), "1.975");
  EXPECT_EQ(figure(0.1 + 0.2), "0.30000000000000004");
  for (const double value : {1.0 / 3, -5.000000000000004, 948.1329, 1e-300, 4.9e-324, 1.7976931348623157e308}) {
    EXPECT_EQ(number_from(figure(value)), value);
  }
}

TEST(CsvFigure, IsNothingWhereThereIsNone) {
  EXPECT_EQ(figure(std::numeric_limits<double>::quiet_NaN()), "");
  EXPECT_EQ(figure(std::numeric_limits<double>::infinity()), "");  // a drift from a flow of 0 is no number
  EXPECT_EQ(figure(-std::numeric_limits<double>::infinity()), "");
}

}  // namespace
}  // namespace driftwarden

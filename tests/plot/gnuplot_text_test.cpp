// SPDX-License-Identifier: MIT
#include "plot/gnuplot_text.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace driftwarden::gnuplot_text_test {
namespace {

// derived: rounded by hand to four digits.

TEST(GnuplotText, StandsInSingleQuotesDoubledInside) {
  EXPECT_EQ(gnuplot_quoted("Bert's pump"), "'Bert''s pump'");
  EXPECT_EQ(gnuplot_quoted(""), "''");
}

TEST(GnuplotText, ShowsWhatWouldEndTheLineOrActOnWhoReads) {
  EXPECT_EQ(gnuplot_quoted("a\n!touch x\r\tb"), "'a\\x0a!touch x\\x0d\\x09b'");
  EXPECT_EQ(gnuplot_quoted("\xC2\x9B\xE2\x80\xAE\xE9"), "'\\xc2\\x9b\\xe2\\x80\\xae\\xe9'");
}

// gnuplot puts texts of an SVG into <![CDATA[...]]>.
TEST(GnuplotText, EndsNoSectionOfAnSvg) { EXPECT_EQ(gnuplot_quoted("a]]>b]]]>c"), "'a] ]>b]] ]>c'"); }

TEST(GnuplotText, LeavesBackticksAndMarkupAsTheyAre) {
  EXPECT_EQ(gnuplot_quoted("`id` x_{2} \"q\""), "'`id` x_{2} \"q\"'");
}

TEST(GnuplotFigure, IsTheShortestThatReadsBack) {
  EXPECT_EQ(gnuplot_figure(0.1), "0.1");
  EXPECT_EQ(gnuplot_figure(std::numeric_limits<double>::quiet_NaN()), "NaN");
  EXPECT_EQ(gnuplot_figure(std::numeric_limits<double>::infinity()), "NaN");
}

TEST(ChartFigure, HasSoManyDigitsAndNoTrailingZeros) {
  EXPECT_EQ(chart_figure(2.00987), "2.01");
  EXPECT_EQ(chart_figure(2.0987), "2.099");
  EXPECT_EQ(chart_figure(-5), "−5");
  EXPECT_EQ(chart_figure(325), "325");
  EXPECT_EQ(chart_figure(325.46, 3), "325");
  EXPECT_EQ(chart_figure(123456), "123456");
  EXPECT_EQ(chart_figure(0.0123456), "0.01235");
  EXPECT_EQ(chart_figure(0), "0");
  EXPECT_EQ(chart_figure(-1e-9), "0");
  EXPECT_EQ(chart_figure(std::numeric_limits<double>::quiet_NaN()), "");
}

}  // namespace
}  // namespace driftwarden::gnuplot_text_test

// SPDX-License-Identifier: MIT
#include "plot/page_charts.hpp"

#include <gtest/gtest.h>

#include "plot/shipped_theme.hpp"
#include "support/book_text.hpp"

namespace driftwarden::page_charts_test {
namespace {

constexpr Day in_october = 20742;

TEST(PageCharts, AreOneFileASeries) {
  const JudgedBook book({});
  const auto histories = histories_of(book.screening(), {0}, in_october, {});
  const SeriesHistory* series = histories[0].find("drift");
  ASSERT_NE(series, nullptr);
  const PageCharts charts =
      page_charts({{&histories[0], series}, {&histories[0], series}}, book.book(), shipped_theme());
  ASSERT_EQ(charts.charts.size(), 2U);
  EXPECT_EQ(charts.charts[1].file, "chart-1.svg");
  EXPECT_NE(charts.script.find("set output 'chart-1.svg'"), std::string::npos);
}

// Beside figures as wide as -0.5 gnuplot has no room for a label; above them there is.
TEST(PageCharts, HaveTheirUnitAboveTheFiguresOfTheAxis) {
  const JudgedBook book({});
  const auto histories = histories_of(book.screening(), {0}, in_october, {});
  const std::string script =
      page_charts({{&histories[0], histories[0].find("drift")}}, book.book(), shipped_theme()).script;
  EXPECT_NE(script.find("set label '[%]' at graph 0, graph 1 right "), std::string::npos) << script;
  EXPECT_NE(script.find("set ylabel '' "), std::string::npos) << script;
}

TEST(PageCharts, HaveNumbersForColours) {
  const JudgedBook book({});
  const auto histories = histories_of(book.screening(), {0}, in_october, {});
  const Theme theme = shipped_theme();
  const std::string script = page_charts({{&histories[0], histories[0].find("drift")}}, book.book(), theme).script;
  EXPECT_NE(script.find("'#0b0b0b'"), std::string::npos);  // points
  for (const std::string* colour : {&theme.text, &theme.faint, &theme.grid, &theme.point.colour, &theme.limit.colour})
    EXPECT_EQ(script.find("'" + *colour + "'"), std::string::npos) << *colour;
}

// Everything on the axes of the quiet ones is in the same place, whatever they show.
TEST(PageCharts, OfWhichNothingIsAskedHaveOneScale) {
  const JudgedBook book({});
  const auto histories = histories_of(book.screening(), {0}, in_october, {});
  SeriesHistory flat = *histories[0].find("drift");
  SeriesHistory bad = flat;
  flat.series.tolerance = bad.series.tolerance = {-5, 5, "own/drift"};
  bad.series.points.back().value = 6;
  const std::string script =
      page_charts({{&histories[0], &flat, true}, {&histories[0], &bad, true}}, book.book(), shipped_theme()).script;
  const std::size_t first = script.find("set yrange [-");
  ASSERT_NE(first, std::string::npos);
  const std::string range = script.substr(first, script.find('\n', first) - first);
  EXPECT_NE(script.find(range, first + 1), std::string::npos) << range;
}

TEST(PageCharts, NameTheCalibratorsByTheirMarks) {
  const JudgedBook book({});
  const auto histories = histories_of(book.screening(), {0}, in_october, {});
  const PageCharts charts = page_charts({{&histories[0], histories[0].find("drift")}}, book.book(), shipped_theme());
  EXPECT_TRUE(charts.calibrator_key.starts_with("● ")) << charts.calibrator_key;
}

TEST(PageCharts, GetTheColoursOfThreeThemes) {
  const Theme light = shipped_theme("light");
  const Theme dark = shipped_theme("dark");
  const std::string style = chart_style(light, dark, shipped_theme("print"));
  EXPECT_EQ(style.find(":root{--chart-1:" + light.text), 0U);
  EXPECT_NE(style.find("@media (prefers-color-scheme:dark){:root{--chart-1:" + dark.text), std::string::npos);
  EXPECT_NE(style.find("--chart-11:" + light.point.colour), std::string::npos);
  EXPECT_NE(style.find(".s13{stroke:var(--chart-13)}"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::page_charts_test

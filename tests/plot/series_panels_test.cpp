// SPDX-License-Identifier: MIT
#include "plot/series_panels.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "history/made_series.hpp"
#include "plot/shipped_theme.hpp"

namespace driftwarden::series_panels_test {
namespace {

// input: values of a series.

// Limits from as few points as there are.
ChartChoices few() {
  ChartChoices choices;
  choices.fewest = 2;
  return choices;
}

const CalibratorMarks no_marks;
ChartLook look() {
  static const Theme theme = shipped_theme();
  static const TimeZone zone = TimeZone::utc();
  return {zone, theme, no_marks};
}

SeriesHistory history_of(Series series, const ChartChoices& choices = few()) {
  SeriesHistory history{std::move(series), {}, {}};
  history.charts = control_charts(history.series, choices);
  history.forecast = forecast_of(history.series, 0);
  return history;
}

SeriesHistory rising() {
  Series series = made_series({1.0, 1.6, 1.9, 2.6, 2.9, 3.6, 4.1, 4.4});
  series.tolerance = {-5, 5, "own/drift"};
  return history_of(std::move(series));
}

Panel main_of(const SeriesHistory& history) { return main_panel(history, look()); }

const Panel::Marks* marks_of(const Panel& panel, int shape) {
  for (const Panel::Marks& marks : panel.marks) {
    if (marks.mark.shape == shape) return &marks;
  }
  return nullptr;
}

TEST(MainPanel, ReachesToTheCrossing) {
  const SeriesHistory history = rising();
  ASSERT_TRUE(history.forecast.crossing);
  const Panel panel = main_of(history);
  EXPECT_GE(panel.x.high, history.forecast.crossing->day);
  EXPECT_EQ(panel.areas.size(), 1U);
}

// To the right of the last point, in a style of their own, with their figures.
TEST(MainPanel, DrawsTheLimitsOfANextPoint) {
  const SeriesHistory history = history_of(made_series({1, 2, 1, 3, 1, 2, 2, 1}));
  const Bounds next = limits_of_next(history, {});
  const Panel panel = main_of(history);
  std::vector<double> drawn;
  for (const Panel::Curve& curve : panel.curves) {
    if (curve.line.dashes != look().theme.next.dashes) continue;
    drawn.push_back(curve.y.front());
    EXPECT_EQ(curve.x.front(), history.series.points.back().day());
    EXPECT_EQ(curve.x.back(), panel.x.high);
    EXPECT_GT(panel.x.high - curve.x.front(), 0.06 * 7);
  }
  EXPECT_EQ(drawn, (std::vector<double>{next.lower, next.upper}));
  EXPECT_LE(panel.y.low, next.lower);
  EXPECT_GE(panel.y.high, next.upper);
  EXPECT_EQ(std::ranges::count_if(panel.levels, [](const auto& level) { return level.text.starts_with("next "); }), 2);
}

TEST(MainPanel, HoldsTheTolerance) {
  const Panel panel = main_of(rising());
  EXPECT_GT(panel.y.high, 5);
  EXPECT_LT(panel.y.low, -5);
}

TEST(MainPanel, DrawsNoTrendWhereNoneIsResolved) {
  const Panel panel = main_of(history_of(made_series({1, -1, 1, -1, 1, -1})));
  EXPECT_TRUE(panel.areas.empty());
}

TEST(MainPanel, ShowsVoidPointsByAShapeOfTheirOwn) {
  Series series = made_series({1, 2, 1, 9, 1, 2});
  series.points[3].is_void = true;
  const Panel panel = main_of(history_of(std::move(series)));
  const Panel::Marks* voids = marks_of(panel, shipped_theme().void_.shape);
  ASSERT_NE(voids, nullptr);
  ASSERT_EQ(voids->y.size(), 1U);
  EXPECT_EQ(voids->y[0], 9);
  EXPECT_EQ(marks_of(panel, shipped_theme().point.shape)->y.size(), 5U);
}

TEST(MainPanel, MarksAndNamesSignals) {
  ChartChoices choices = few();
  choices.baseline = 6;
  const Panel panel = main_of(history_of(made_series({1, 2, 1, 2, 1, 2, 30}), choices));
  const Panel::Marks* signals = marks_of(panel, shipped_theme().signal.shape);
  ASSERT_EQ(signals->y.size(), 1U);
  EXPECT_EQ(signals->y[0], 30);
  ASSERT_EQ(panel.notes.size(), 1U);
  EXPECT_EQ(panel.notes[0].text, "beyond");
}

TEST(MainPanel, NamesASignalThatGoesOnOnlyOnce) {
  ChartChoices choices = few();
  choices.baseline = 6;
  const Panel panel = main_of(history_of(made_series({1, 2, 1, 2, 1, 2, 30, 31, 32, 30}), choices));
  EXPECT_EQ(marks_of(panel, shipped_theme().signal.shape)->y.size(), 4U);
  EXPECT_EQ(panel.notes.size(), 1U);
}

TEST(MainPanel, HasARightSideForASinglePoint) {
  const Panel panel = main_of(history_of(made_series({1})));
  EXPECT_LT(panel.x.low, panel.x.high);
  EXPECT_LT(panel.y.low, panel.y.high);
}

TEST(MainPanel, OfThousandsOfPointsJoinsThemNotAndDrawsThemSmall) {
  std::vector<double> values;
  for (int i = 0; i < 3000; ++i) values.push_back(i % 7);
  const Panel panel = main_of(history_of(made_series(values)));
  EXPECT_LT(marks_of(panel, shipped_theme().point.shape)->mark.size, 0.5 * shipped_theme().point.size);
  for (const Panel::Curve& curve : panel.curves) EXPECT_NE(curve.line.colour, shipped_theme().value.colour);
  EXPECT_LE(panel.notes.size(), 10U);
  // What lies under thousands of points is not seen.
  for (const Panel::Curve& curve : panel.curves) EXPECT_TRUE(curve.is_over_marks);
}

TEST(MainPanel, SeparatesPhases) {
  Series series = made_series({1, 2, 1, 2, 11, 12, 11, 12});
  cut_into_phases(series, {{series.points[4].at, "new diaphragm"}});
  const Panel panel = main_of(history_of(std::move(series)));
  ASSERT_FALSE(panel.notes.empty());
  EXPECT_EQ(panel.notes.back().text, "new diaphragm");
  const auto joined = std::find_if(panel.curves.begin(), panel.curves.end(), [](const Panel::Curve& curve) {
    return curve.line.colour == shipped_theme().value.colour;
  });
  ASSERT_NE(joined, panel.curves.end());
  ASSERT_EQ(joined->y.size(), 9U);
  EXPECT_TRUE(is_missing(joined->y[4]));  // no line leads from one phase to the next
}

TEST(ChartPanel, NamesTheLimitsOfItsLastPoint) {
  const SeriesHistory history = history_of(made_series({1, 2, 1.5}));
  const Panel panel = chart_panel(history, ChartKind::ewma, look());
  for (const ControlChart& chart : history.charts) {
    if (chart.kind != ChartKind::ewma) continue;
    ASSERT_EQ(panel.levels.size(), 3U);
    EXPECT_EQ(panel.levels[1].y, chart.values.back().upper);
    EXPECT_LT(panel.levels[1].y, chart.upper);  // that of many points
  }
}

TEST(MainPanel, NamesLimitsNoFinerThanItCanShowThem) {
  Series series = made_series({0.23317, 0.23325, 0.23317, 0.23321});
  series.tolerance = {-1, 1, "own/found"};
  const Panel panel = main_of(history_of(std::move(series)));
  std::vector<std::string> names;
  for (const auto& level : panel.levels) names.push_back(level.text);
  EXPECT_NE(std::find(names.begin(), names.end(), "centre 0.233"), names.end());
}

TEST(ChartPanel, ShowsBothCumulativeSums) {
  const Panel panel = chart_panel(rising(), ChartKind::cusum, look());
  EXPECT_NE(marks_of(panel, filled(shipped_theme().point).shape), nullptr);
  EXPECT_NE(marks_of(panel, open(shipped_theme().point).shape), nullptr);
}

TEST(ChartPanel, OfAChartThatIsNotThereIsEmpty) {
  EXPECT_TRUE(chart_panel(rising(), ChartKind::spread, look()).marks.empty());
}

TEST(TilePanel, HasNoWordsAndTheScaleItIsGiven) {
  const SeriesHistory history = rising();
  const Tile scale = common_scale({&history}, TimeZone::utc());
  const Panel panel = tile_panel(history, scale, look());
  EXPECT_TRUE(panel.notes.empty());
  EXPECT_TRUE(panel.levels.empty());
  EXPECT_EQ(panel.y.low, scale.y.low);
  EXPECT_EQ(panel.x.high, scale.x.high);
}

TEST(TilePanel, MarksWhatIsBeyondTheToleranceAndWhatIsOffTheScale) {
  Series series = made_series({0, 0.5, 6, 100});
  series.tolerance = {-5, 5, "own/drift"};
  const SeriesHistory history = history_of(std::move(series));
  const Tile scale = common_scale({&history}, TimeZone::utc());
  EXPECT_LT(scale.y.high, 20);
  std::size_t beyond = 0;
  for (const Panel::Marks& marks : tile_panel(history, scale, look()).marks) {
    if (marks.mark.colour != shipped_theme().signal.colour) continue;
    beyond += marks.y.size();
    for (const double y : marks.y) EXPECT_LE(y, scale.y.high);
  }
  EXPECT_EQ(beyond, 2U);
}

TEST(CommonScale, HoldsAllTolerancesAndIsNotStretchedByOneThatRanAway) {
  Series flat = made_series({0, 0.1});
  flat.tolerance = {-5, 5, "own/drift"};
  Series away = made_series({0, 0.1, 40});
  away.tolerance = {-10, 10, "own/drift"};
  const SeriesHistory a = history_of(std::move(flat));
  const SeriesHistory b = history_of(std::move(away));
  const Tile scale = common_scale({&a, &b}, TimeZone::utc());
  EXPECT_LT(scale.y.low, -10);
  EXPECT_GT(scale.y.high, 20);
  EXPECT_LT(scale.y.high, 40);
  EXPECT_GE(scale.x.high, axis_day(b.series, b.series.points.back().at, TimeZone::utc()));
}

TEST(AxisDay, IsTheLocalClocks) {
  const auto zone = TimeZone::named("MST7", {});
  ASSERT_TRUE(zone);
  Series series = made_series({1});
  EXPECT_NEAR(axis_day(series, 86400, *zone), 1 - 7.0 / 24, 1e-12);
  series.is_by_day = true;
  EXPECT_NEAR(axis_day(series, 86400, *zone), 1, 1e-12);
}

TEST(ShortNames, FitBesideAMark) {
  EXPECT_EQ(short_name("beyond-limits"), "beyond");
  EXPECT_EQ(short_name("run-of-8"), "8 on a side");
  EXPECT_EQ(short_name("trend-of-6"), "trend 6");
  EXPECT_EQ(short_name("something"), "something");
}

}  // namespace
}  // namespace driftwarden::series_panels_test

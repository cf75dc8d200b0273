// SPDX-License-Identifier: MIT
#include "history/control_chart.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "history/forecast.hpp"
#include "history/made_series.hpp"

namespace driftwarden::control_chart_test {
namespace {

// input: readings and spreads, where nothing else is said.

// Limits from as few points as there are.
ChartChoices few() {
  ChartChoices choices;
  choices.fewest = 2;
  return choices;
}

const ControlChart* chart_of(const std::vector<ControlChart>& charts, ChartKind kind, std::size_t phase = 0) {
  for (const ControlChart& chart : charts) {
    if (chart.kind == kind && phase-- == 0) return &chart;
  }
  return nullptr;
}

// NIST/SEMATECH e-Handbook 6.3.2.2, flow rate of ten batches.
const std::vector<double> flow_rates{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};

// printed input: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, which has 55.8041 with 1.128 for d2; with
// the exact d2 computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(IndividualsChart, HasTheHandbooksLimits) {
  const auto charts = control_charts(made_series(flow_rates), few());
  const ControlChart* chart = chart_of(charts, ChartKind::individuals);
  ASSERT_NE(chart, nullptr);
  EXPECT_NEAR(chart->centre, 50.81, 1e-9);
  EXPECT_NEAR(chart->upper, 55.8024, 1e-4);
  EXPECT_NEAR(chart->lower, 45.8176, 1e-4);
  EXPECT_TRUE(chart->signals.empty());
  EXPECT_TRUE(chart->is_provisional());
}

// printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, mean moving range.
TEST(MovingRangeChart, HasNoValueAtTheFirstPoint) {
  const auto charts = control_charts(made_series(flow_rates), few());
  const ControlChart* chart = chart_of(charts, ChartKind::moving_range);
  ASSERT_NE(chart, nullptr);
  EXPECT_TRUE(is_missing(chart->values[0].value));
  EXPECT_NEAR(chart->values[1].value, 2.0, 1e-9);
  EXPECT_NEAR(chart->centre, 1.8778, 5e-5);
}

TEST(Charts, TakeTheirLimitsFromTheFirstPointsAlone) {
  std::vector<double> values{1, 2, 1, 2, 1, 2};
  values.push_back(50);
  ChartChoices choices = few();
  choices.baseline = 6;
  const auto charts = control_charts(made_series(values), choices);
  const ControlChart* chart = chart_of(charts, ChartKind::individuals);
  EXPECT_DOUBLE_EQ(chart->centre, 1.5);
  EXPECT_EQ(chart->baseline_n, 6U);
  EXPECT_EQ(chart->baseline_last, 5U);
  ASSERT_EQ(chart->signals.size(), 1U);
  EXPECT_EQ(chart->signals[0].point, 6U);
  EXPECT_EQ(chart->signals[0].rule, "beyond-limits");
}

// Points a day from 1970-01-01 on, by the day: numbers 2 to 5, the void one left out.
TEST(Charts, TakeTheirLimitsFromTheDaysChosen) {
  Series series = made_series({50, 60, 1, 2, 90, 3, 70});
  series.points[4].is_void = true;
  const Day first = day_of(series, series.points[0].day(), TimeZone::utc());
  ChartChoices choices = few();
  choices.baseline_from = first + 2;
  choices.baseline_to = first + 5;
  const auto charts = control_charts(series, choices);
  const ControlChart* chart = chart_of(charts, ChartKind::individuals);
  ASSERT_NE(chart, nullptr);
  EXPECT_DOUBLE_EQ(chart->centre, 2);
  EXPECT_EQ(chart->baseline_first, 2U);
  EXPECT_EQ(chart->baseline_last, 5U);
  EXPECT_EQ(chart->baseline_n, 3U);
  choices.baseline_to = first + 3;
  EXPECT_DOUBLE_EQ(chart_of(control_charts(series, choices), ChartKind::individuals)->centre, 1.5);
}

TEST(Charts, OfAPhaseWithoutPointsOnTheDaysChosenTakeItsFirstPoints) {
  const Series series = made_series({1, 2, 1, 2});
  ChartChoices choices = few();
  choices.baseline = 2;
  choices.baseline_from = choices.baseline_to = 30000;
  const auto charts = control_charts(series, choices);
  const ControlChart* chart = chart_of(charts, ChartKind::individuals);
  ASSERT_NE(chart, nullptr);
  EXPECT_EQ(chart->baseline_first, 0U);
  EXPECT_EQ(chart->baseline_last, 1U);
}

TEST(Charts, LeaveVoidPointsOutOfLimitsSignalsAndBaseline) {
  Series series = made_series({1, 2, 1, 90, 2, 1, 2});
  series.points[3].is_void = true;
  ChartChoices choices = few();
  choices.baseline = 5;
  const auto charts = control_charts(series, choices);
  const ControlChart* chart = chart_of(charts, ChartKind::individuals);
  EXPECT_NEAR(chart->centre, 1.4, 1e-12);
  EXPECT_EQ(chart->baseline_last, 5U);
  EXPECT_TRUE(chart->signals.empty());
  EXPECT_TRUE(is_missing(chart_of(charts, ChartKind::ewma)->values[3].value));
  // A gap is not bridged: neither the void point nor the one after it has a moving range.
  EXPECT_TRUE(is_missing(chart_of(charts, ChartKind::moving_range)->values[3].value));
  EXPECT_TRUE(is_missing(chart_of(charts, ChartKind::moving_range)->values[4].value));
}

TEST(Charts, BeginAnewWithEachPhase) {
  Series series = made_series({1, 2, 1, 2, 11, 12, 11, 12});
  cut_into_phases(series, {{series.points[4].at, "repaired"}});
  const auto charts = control_charts(series, few());
  EXPECT_DOUBLE_EQ(chart_of(charts, ChartKind::individuals, 0)->centre, 1.5);
  const ControlChart* second = chart_of(charts, ChartKind::individuals, 1);
  ASSERT_NE(second, nullptr);
  EXPECT_DOUBLE_EQ(second->centre, 11.5);
  EXPECT_EQ(second->phase.reason, "repaired");
  EXPECT_TRUE(second->signals.empty());
}

TEST(Charts, AreNotMadeOfFewerPointsThanTheyCanBear) {
  EXPECT_EQ(fewest_usual_points, 8U);
  EXPECT_TRUE(control_charts(made_series({1, 2, 1, 2, 1, 2, 1}), {}).empty());
  EXPECT_FALSE(control_charts(made_series({1, 2, 1, 2, 1, 2, 1, 2}), {}).empty());
  Series one_is_void = made_series({1, 2, 1, 2, 1, 2, 1, 2});
  one_is_void.points[3].is_void = true;
  EXPECT_TRUE(control_charts(one_is_void, {}).empty());
}

TEST(SetCharts, AreNotMadeOfFewerSetsThanTheyCanBear) {
  Series series = made_series({1, 2, 1, 2, 1, 2, 1, 2});
  for (SeriesPoint& point : series.points) point.n = 3, point.s = 0.1;
  EXPECT_NE(chart_of(control_charts(series, {}), ChartKind::mean), nullptr);
  series.points[2].n = 1;
  series.points[2].s = missing;
  EXPECT_EQ(chart_of(control_charts(series, {}), ChartKind::mean), nullptr);
  EXPECT_NE(chart_of(control_charts(series, {}), ChartKind::individuals), nullptr);
}

TEST(Charts, AreNotMadeOfValuesWithoutSpread) {
  EXPECT_TRUE(control_charts(made_series({2, 2, 2, 2}), few()).empty());
  EXPECT_TRUE(control_charts(made_series({2}), few()).empty());
  EXPECT_TRUE(control_charts(made_series({}), few()).empty());
}

TEST(Charts, AreNotMadeOfRoundingNoise) {
  const double next = std::nextafter(2.010, 3);
  EXPECT_TRUE(control_charts(made_series({2.010, next, 2.010, 2.010, next}), few()).empty());
}

TEST(Charts, AreNotMadeOfCounts) {
  Series series = made_series({1, 2, 3, 4});
  series.is_charted = false;
  EXPECT_TRUE(control_charts(series, few()).empty());
}

TEST(SetCharts, AreOnlyMadeOfSetsOfReplicates) {
  EXPECT_EQ(chart_of(control_charts(made_series({1, 2, 3}), few()), ChartKind::spread), nullptr);
}

// own input: two sets of three; the factors computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(SetCharts, HaveTheLimitsOfMeansAndStandardDeviations) {
  Series series = made_series({2.01, 2.0125});
  for (SeriesPoint& point : series.points) point.n = 3;
  series.points[0].s = 0.001;
  series.points[1].s = 0.002;
  const auto charts = control_charts(series, few());
  const ControlChart* mean = chart_of(charts, ChartKind::mean);
  const ControlChart* spread = chart_of(charts, ChartKind::spread);
  ASSERT_NE(mean, nullptr);
  ASSERT_NE(spread, nullptr);
  EXPECT_NEAR(mean->centre, 2.01125, 1e-12);
  EXPECT_NEAR(mean->upper, 2.01125 + 1.9544 * 0.0015, 1e-6);  // A3(3) = 1.9544
  EXPECT_NEAR(spread->upper, 2.5682 * 0.0015, 1e-6);          // B4(3) = 2.5682
  EXPECT_EQ(spread->lower, 0);
}

TEST(SetCharts, HaveWiderLimitsWhereASetIsSmaller) {
  Series series = made_series({2.01, 2.0125, 2.011});
  for (SeriesPoint& point : series.points) {
    point.n = 5;
    point.s = 0.001;
  }
  series.points[1].n = 3;
  const auto charts = control_charts(series, few());
  const ControlChart* mean = chart_of(charts, ChartKind::mean);
  EXPECT_GT(mean->values[1].upper - mean->centre, mean->values[0].upper - mean->centre);
  EXPECT_DOUBLE_EQ(mean->upper, mean->values[0].upper);
}

// printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, data; k 0.3175 and h 4.1959 in the unit of the
// data, target 325.
const std::vector<double> means{324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125,
                                324.525, 325.225, 324.600, 324.625, 325.150, 328.325, 327.250,
                                327.825, 328.500, 326.675, 327.775, 326.875, 328.350};

// printed: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3; the last sum, printed with two decimals, to a
// third computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(CusumChart, SignalsWhereTheHandbooksDoes) {
  Series series = made_series(means);
  series.takes_target = true;
  ChartChoices choices = few();
  choices.baseline = 12;
  choices.target = 325;
  const auto first = control_charts(series, choices);
  const double sigma = chart_of(first, ChartKind::cusum)->sigma;
  choices.cusum_k = 0.3175 / sigma;
  choices.cusum_h = 4.1959 / sigma;
  const auto charts = control_charts(series, choices);
  const ControlChart* chart = chart_of(charts, ChartKind::cusum);
  EXPECT_NEAR(chart->upper, 4.1959, 1e-9);
  EXPECT_NEAR(chart->lower, -4.1959, 1e-9);
  ASSERT_EQ(chart->signals.size(), 7U);
  EXPECT_EQ(chart->signals.front().point, 13U);
  EXPECT_EQ(chart->signals.front().rule, "upper-sum");
  EXPECT_NEAR(chart->values.back().value, 19.035, 0.005);
}

TEST(CusumChart, ShowsTheLowerSumBelowZero) {
  std::vector<double> values{1, 2, 1, 2, 1, 2, 1, 2};
  for (int i = 0; i < 8; ++i) values.push_back(-4);
  ChartChoices choices = few();
  choices.baseline = 8;
  const auto charts = control_charts(made_series(values), choices);
  const ControlChart* chart = chart_of(charts, ChartKind::cusum);
  EXPECT_LT(chart->values.back().second, chart->lower);
  EXPECT_EQ(chart->signals.back().rule, "lower-sum");
}

TEST(EwmaChart, TakesTheBooksTargetForTheSeriesItIsOf) {
  ChartChoices choices = few();
  choices.target = 50;
  Series series = made_series(flow_rates);
  EXPECT_NEAR(chart_of(control_charts(series, choices), ChartKind::ewma)->centre, 50.81, 1e-9);
  series.takes_target = true;
  EXPECT_EQ(chart_of(control_charts(series, choices), ChartKind::ewma)->centre, 50);
}

TEST(FalseSignals, ComeAboutAsOftenAsTheRulesTogether) {
  const std::vector<RunRule> first{{RunPattern::beyond_limit, 1}};
  EXPECT_NEAR(points_between_false_signals(first), 370.4, 0.1);
  EXPECT_LT(points_between_false_signals(nelson_rules), points_between_false_signals(western_electric_rules));
}

}  // namespace
}  // namespace driftwarden::control_chart_test

// SPDX-License-Identifier: MIT
#include "history/instrument_history.hpp"

#include <gtest/gtest.h>

#include "history/made_series.hpp"
#include "support/book_text.hpp"

namespace driftwarden::instrument_history_test {
namespace {

constexpr Day in_october = 20742;

SeriesHistory with_tolerance(const std::vector<double>& values) {
  SeriesHistory history{made_series(values), {}, {}};
  history.series.tolerance = {-5, 5, "own/drift"};
  return history;
}

TEST(InstrumentHistory, OfAPumpHasNoAdviceOnIntervals) {
  const JudgedBook book({});
  const auto histories = histories_of(book.screening(), {0}, in_october, {});
  ASSERT_EQ(histories.size(), 1U);
  EXPECT_NE(histories[0].find("pre-flow"), nullptr);
  EXPECT_EQ(histories[0].find("as-found-error"), nullptr);
  EXPECT_TRUE(histories[0].interval.empty());
}

TEST(InstrumentHistory, OfACalibratorHasAdvice) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found "
      "[L/min]\nC,V1,2026-01-05,2,2,2.01\n";
  const JudgedBook book(text);
  const auto histories = histories_of(book.screening(), {2}, in_october, {});
  EXPECT_NE(histories[0].find("as-found-error"), nullptr);
  EXPECT_EQ(histories[0].interval.size(), 5U);
}

TEST(InstrumentHistory, KeepsTheOrderAskedFor) {
  const JudgedBook book({});
  const auto histories = histories_of(book.screening(), {2, 0}, in_october, {});
  EXPECT_EQ(histories[0].instrument, 2U);
  EXPECT_EQ(histories[1].instrument, 0U);
}

TEST(Urgency, RanksOutOfToleranceBeforeACrossingBeforeNearness) {
  const double out = urgency_of({with_tolerance({5.1})});
  const double on = urgency_of({with_tolerance({5.0})});
  SeriesHistory crossing = with_tolerance({1});
  crossing.forecast.crossing = Crossing{5, 100, 90, 110};
  crossing.forecast.last_day = 50;
  const double soon = urgency_of({crossing});
  const double near = urgency_of({with_tolerance({-4.5})});
  const double far = urgency_of({with_tolerance({0.5})});
  EXPECT_GT(out, soon);
  EXPECT_GT(soon, on);
  EXPECT_GT(on, near);
  EXPECT_GT(near, far);
}

TEST(Urgency, RanksASignalAmongTheLastFivePointsBeforeNone) {
  SeriesHistory history = with_tolerance({0, 1, 0, 1, 0, 1, 0, 1});
  history.charts = control_charts(history.series, {});
  ControlChart& chart = history.charts.front();
  chart.signals = {{2, "beyond-limits"}};
  EXPECT_LT(urgency_of({history}), 1);
  chart.signals = {{3, "beyond-limits"}};
  EXPECT_GE(urgency_of({history}), 1);
}

TEST(Urgency, OfNothingIsNone) { EXPECT_EQ(urgency_of(std::vector<SeriesHistory>{}), 0); }

TEST(LackingLimits, AreExplained) {
  const auto said = [](const std::vector<double>& values) {
    SeriesHistory history{made_series(values), {}, {}};
    history.charts = control_charts(history.series, {});
    return lacks_limits(history);
  };
  EXPECT_EQ(said({1, 2, 1}), "3 points are too few to say; it takes 8");
  EXPECT_EQ(said({1}), "1 point is too few to say; it takes 8");
  EXPECT_EQ(said({2, 2, 2, 2, 2, 2, 2, 2}), "the points they would come from are too few, or all alike");
  EXPECT_EQ(said({1, 2, 1, 2, 1, 2, 1, 2}), "");
}

TEST(LackingLimits, AreThoseOfTheNewestPhase) {
  SeriesHistory history{made_series({1, 2, 1, 2, 1, 2, 1, 2, 5, 6}), {}, {}};
  cut_into_phases(history.series, {{history.series.points[8].at, "new diaphragm"}});
  history.charts = control_charts(history.series, {});
  EXPECT_EQ(lacks_limits(history), "2 points since 'new diaphragm' are too few to say; it takes 8");
}

}  // namespace
}  // namespace driftwarden::instrument_history_test

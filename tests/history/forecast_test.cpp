// SPDX-License-Identifier: MIT
#include "history/forecast.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "history/made_series.hpp"

namespace driftwarden::forecast_test {
namespace {

// own input: six errors of a calibrator, %, at 0 to 60 units of time, taken as days here; slope, band and crossing
// computed with SciPy 1.10 by tests/support/computed_records.py; R 4.2 and GSL 2.7 agreed when they were asked.

Series six_errors(double sign = 1) {
  Series series = made_series({});
  const std::vector<double> days{0, 12, 24, 37, 49, 60};
  const std::vector<double> errors{0.05, 0.21, 0.30, 0.52, 0.61, 0.83};
  for (std::size_t i = 0; i < days.size(); ++i) {
    SeriesPoint point;
    point.at = static_cast<Moment>(days[i] * seconds_a_day);
    point.value = sign * errors[i];
    series.points.push_back(point);
  }
  cut_into_phases(series, {});
  series.tolerance = {-1, 1, "own/as-found"};
  return series;
}

TEST(Forecast, GivesTheSlopeWithItsInterval) {
  const Forecast forecast = forecast_of(six_errors(), 0);
  ASSERT_TRUE(forecast.trend);
  EXPECT_EQ(forecast.trend->method, "least-squares");
  EXPECT_NEAR(forecast.trend->slope_per_day, 0.0125363259, 1e-9);
  EXPECT_NEAR(forecast.trend->high - forecast.trend->slope_per_day, 2.7764451 * 0.000751551516, 1e-8);
  EXPECT_TRUE(forecast.trend->is_resolved);
  ASSERT_TRUE(forecast.robust);
  EXPECT_NEAR(forecast.robust->slope_per_day, 0.0127027027, 1e-9);
  EXPECT_NEAR(forecast.robust->p, 0.00277778, 1e-8);
}

TEST(Forecast, GivesTheCrossingWithItsInterval) {
  const Forecast forecast = forecast_of(six_errors(), 0);
  ASSERT_TRUE(forecast.crossing);
  EXPECT_EQ(forecast.crossing->limit, 1);
  EXPECT_NEAR(forecast.crossing->day, 76.5989, 1e-4);
  EXPECT_NEAR(forecast.crossing->earliest, 65.7458, 1e-4);
  EXPECT_NEAR(forecast.crossing->latest, 90.0886, 1e-4);
  EXPECT_EQ(forecast.said, "by its trend it leaves its tolerance on 1970-03-18, between 1970-03-07 and 1970-04-01");
}

TEST(Forecast, MeetsTheLowerToleranceOnTheWayDown) {
  const Forecast forecast = forecast_of(six_errors(-1), 0);
  ASSERT_TRUE(forecast.crossing);
  EXPECT_EQ(forecast.crossing->limit, -1);
  EXPECT_NEAR(forecast.crossing->day, 76.5989, 1e-4);
}

TEST(Forecast, BandHoldsTheExpectedPlaceOfOneMoreResult) {
  const Bounds band = forecast_of(six_errors(), 0).band_at(72);
  EXPECT_NEAR(band.lower, 0.79878254, 1e-7);
  EXPECT_NEAR(band.upper, 1.08591129, 1e-7);
}

TEST(Forecast, ReachesNoFartherThanTheHistoryIsLong) {
  Series series = six_errors();
  series.tolerance.upper = 3;
  const Forecast forecast = forecast_of(series, 0);
  EXPECT_FALSE(forecast.crossing);
  EXPECT_EQ(forecast.said,
            "by its trend it stays within its tolerance until 1970-05-01, and no forecast looks farther");
  EXPECT_TRUE(forecast_of(series, 365).crossing);
}

// own input: computed with SciPy 1.10 by tests/support/computed_records.py, the band meets 1.6 % on day 108.57, the
// line on day 124.46; reach ends on day 120.
TEST(Forecast, TellsOfTheEarlyEdgeWhereTheLineLiesBeyondReach) {
  Series series = six_errors();
  series.tolerance.upper = 1.6;
  const Forecast forecast = forecast_of(series, 0);
  ASSERT_TRUE(forecast.crossing);
  EXPECT_GT(forecast.crossing->day, forecast.last_day + forecast.reach_days);
  EXPECT_LT(forecast.crossing->earliest, forecast.last_day + forecast.reach_days);
  EXPECT_NEAR(forecast.crossing->earliest, 108.56608, 1e-5);
  EXPECT_EQ(
      forecast.said,
      "it may leave its tolerance from 1970-04-19 on; by the line itself not before 1970-05-01, and no forecast looks "
      "farther");
}

TEST(Forecast, SaysThatTheLineMetTheToleranceAlready) {
  Series series = six_errors();
  series.tolerance.upper = 0.6;
  const Forecast forecast = forecast_of(series, 0);
  ASSERT_TRUE(forecast.crossing);
  EXPECT_LT(forecast.crossing->day, 60);
  EXPECT_TRUE(forecast.said.starts_with("by its trend it left its tolerance on ")) << forecast.said;
}

TEST(Forecast, SpeaksOfNoTrendWhereThereIsNone) {
  Series series = made_series({1, -1, 1, -1, 1, -1, 1, -1});
  series.tolerance = {-5, 5, "own/drift"};
  const Forecast forecast = forecast_of(series, 0);
  EXPECT_EQ(forecast.said, "no trend that stands out from chance");
  EXPECT_FALSE(forecast.trend->is_resolved);
  EXPECT_FALSE(forecast.crossing);
}

// input: means of 2.010 that are alike but for what rounding leaves: 2.010 and the double after it.
TEST(Forecast, MakesNoTrendOfRoundingNoise) {
  const double next = std::nextafter(2.010, 3);
  const Forecast forecast = forecast_of(made_series({2.010, 2.010, 2.010, 2.010, next, next, next, next}), 0);
  EXPECT_EQ(forecast.said, "no trend that stands out from chance");
  EXPECT_EQ(forecast.trend->slope_per_day, 0);
  EXPECT_FALSE(forecast.robust->is_resolved);
  EXPECT_EQ(forecast.robust->p, 1);
}

// own input: many ties; Mann and Kendall find p 0.040 (S 19, var S 77), but the slopes' interval begins at 0; computed
// with SciPy 1.10 by tests/support/computed_records.py.
TEST(Forecast, OfTheRobustKindLeavesOutZeroOrIsNotResolved) {
  const Forecast forecast = forecast_of(made_series({1, 1, 1, 1, 1, 1, 2, 1, 2, 2}), 0);
  ASSERT_TRUE(forecast.robust);
  EXPECT_NEAR(forecast.robust->p, 0.0402387, 1e-7);
  EXPECT_EQ(forecast.robust->low, 0);
  EXPECT_FALSE(forecast.robust->is_resolved);
}

TEST(Forecast, NeedsFivePoints) {
  Series series = made_series({1, 2, 3, 4});
  series.tolerance = {-5, 5, "own/drift"};
  EXPECT_EQ(forecast_of(series, 0).said, "too few points for a trend");
  EXPECT_FALSE(forecast_of(made_series({1}), 0).trend);
  EXPECT_EQ(forecast_of(made_series({}), 0).said, "");
}

TEST(Forecast, SaysThatNoToleranceIsStated) {
  Series series = six_errors();
  series.tolerance = {};
  EXPECT_EQ(forecast_of(series, 0).said, "a trend, and no tolerance to hold it to");
  series.tolerance.lower = -1;
  EXPECT_EQ(forecast_of(series, 0).said, "a trend, and no tolerance on the side it moves to");
}

TEST(Forecast, IsOfTheLastPhaseAndWithoutVoidPoints) {
  Series series = made_series({9, 8, 7, 1, 2, 3, 50, 4, 5});
  series.points[6].is_void = true;
  cut_into_phases(series, {{series.points[3].at, "repaired"}});
  const Forecast forecast = forecast_of(series, 0);
  EXPECT_EQ(forecast.trend->n, 5U);
  EXPECT_GT(forecast.trend->slope_per_day, 0.7);
  EXPECT_EQ(forecast.first_day, series.points[3].day());
}

// Invented: five calibrations a year apart, adjusted to 0.05 % each time. Rate through the origin by hand:
// Σ change·time / Σ time².
TEST(Forecast, OfAnAdjustedInstrumentIsMadeOfItsSteps) {
  Series series = made_series({0.4, 0.5, 0.45, 0.42, 0.47, 0.44});
  series.tolerance = {-1, 1, "own/as-found"};
  series.last_left = 0.05;
  for (const double change : {0.42, 0.38, 0.40, 0.41, 0.39}) series.steps.push_back({365, change});
  const Forecast forecast = forecast_of(series, 3000);
  ASSERT_TRUE(forecast.trend);
  EXPECT_EQ(forecast.trend->method, "steps-between-calibrations");
  EXPECT_NEAR(forecast.trend->slope_per_day, 0.40 / 365, 1e-12);
  EXPECT_FALSE(forecast.robust);
  ASSERT_TRUE(forecast.crossing);
  EXPECT_NEAR(forecast.crossing->day - forecast.last_day, 0.95 / (0.40 / 365), 1e-6);
  EXPECT_NEAR(forecast.at(forecast.last_day), 0.05, 1e-12);
}

TEST(Forecast, OfCountsSaysNothing) {
  Series series = six_errors();
  series.is_charted = false;
  EXPECT_FALSE(forecast_of(series, 0).trend);
}

// A flat pump, read with one calibrator and then with another that shows 3 % more.
Series read_with_another_since(std::size_t change) {
  Series series = made_series({0.1, -0.1, 0.2, 0.0, -0.2, 0.1, 0.0, -0.1, 0.2, 0.1, -0.2, 0.0});
  for (std::size_t i = 0; i < series.points.size(); ++i) {
    series.points[i].calibrator = i < change ? 1 : 2;
    series.points[i].certificate = i < change ? 11 : 12;
    if (i >= change) series.points[i].value += 3;
  }
  series.tolerance = {-5, 5, "own/drift"};
  return series;
}

TEST(Forecast, NeverLeansAcrossAChangeOfCalibrator) {
  Series series = read_with_another_since(6);
  const Forecast forecast = forecast_of(series, 365);
  EXPECT_FALSE(forecast.trend->is_resolved) << forecast.said;
  EXPECT_EQ(forecast.said, "no trend that stands out from chance");
  EXPECT_EQ(forecast.levels, 2U);
  // The same points of one calibrator rise.
  for (SeriesPoint& point : series.points) point.calibrator = point.certificate = 1;
  EXPECT_TRUE(forecast_of(series, 365).trend->is_resolved);
}

TEST(Forecast, NeverLeansAcrossAChangeOfCertificate) {
  Series series = read_with_another_since(6);
  for (SeriesPoint& point : series.points) point.calibrator = 1;
  EXPECT_FALSE(forecast_of(series, 365).trend->is_resolved);
}

TEST(Forecast, NeverLeansAcrossAService) {
  Series series = read_with_another_since(6);
  for (SeriesPoint& point : series.points) point.calibrator = point.certificate = 1;
  cut_into_phases(series, {{series.points[6].at, "new diaphragm"}});
  const Forecast forecast = forecast_of(series, 365);
  EXPECT_FALSE(forecast.trend->is_resolved);
  EXPECT_EQ(forecast.trend->n, 6U);
}

// What calibrators read in turn show together is a trend, whatever lies between their levels; it goes on from the level
// of the last one.
TEST(Forecast, TakesTheSlopeInsideTheLevelsOfCalibratorsReadInTurn) {
  Series series = made_series({});
  for (int i = 0; i < 12; ++i) {
    SeriesPoint point;
    point.at = static_cast<Moment>(i * 7 * seconds_a_day);
    point.calibrator = i % 2 == 0 ? 1 : 2;
    point.value = 0.2 * i + (i % 2 == 0 ? 0 : -1) + (i % 3 == 0 ? 0.02 : -0.01);
    series.points.push_back(point);
  }
  cut_into_phases(series, {});
  series.tolerance = {-5, 5, "own/drift"};
  const Forecast forecast = forecast_of(series, 365);
  ASSERT_TRUE(forecast.crossing) << forecast.said;
  EXPECT_NEAR(forecast.at(77), 0.2 * 11 - 1, 0.05);
  EXPECT_TRUE(forecast.said.ends_with("; jumps between its 2 calibrators or certificates left out")) << forecast.said;
}

// A drift read with one calibrator before and after is free of its error, whichever it was.
TEST(Forecast, OfDriftsReadWithOneCalibratorEachTakesThemAllTogether) {
  Series series = read_with_another_since(6);
  for (SeriesPoint& point : series.points) {
    point.calibrator_after = point.calibrator;
    point.certificate_after = point.certificate;
  }
  EXPECT_EQ(forecast_of(series, 365).levels, 1U);
}

TEST(Forecast, SaysThatThereAreTooFewPointsWhereEachCalibratorHasOne) {
  Series series = made_series({0, 1, 2, 3, 4, 5});
  for (std::size_t i = 0; i < series.points.size(); ++i) series.points[i].calibrator = static_cast<Row>(i);
  EXPECT_EQ(forecast_of(series, 365).said, "too few points for a trend");
}

}  // namespace
}  // namespace driftwarden::forecast_test

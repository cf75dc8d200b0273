// SPDX-License-Identifier: MIT
#include "history/series.hpp"

#include <gtest/gtest.h>

#include "history/made_series.hpp"

namespace driftwarden::series_test {
namespace {

TEST(Series, CountsNeitherVoidNorMissingPoints) {
  Series series = made_series({1, 2, missing, 4});
  series.points[1].is_void = true;
  EXPECT_EQ(series.counted(), 2U);
  EXPECT_TRUE(is_missing(series.points[1].counted()));
}

TEST(Phases, CoverTheWholeSeriesWhereNothingWasDone) {
  const Series series = made_series({1, 2, 3});
  ASSERT_EQ(series.phases.size(), 1U);
  EXPECT_EQ(series.phases[0].count, 3U);
}

TEST(Phases, BeginWithTheFirstPointAtOrAfterWhatWasDone) {
  Series series = made_series({1, 2, 3, 4});
  cut_into_phases(series, {{series.points[2].at, "new diaphragm"}});
  ASSERT_EQ(series.phases.size(), 2U);
  EXPECT_EQ(series.phases[0].count, 2U);
  EXPECT_EQ(series.phases[1].first, 2U);
  EXPECT_EQ(series.phases[1].reason, "new diaphragm");
}

TEST(Phases, AreNotCutBeforeTheFirstOrAfterTheLastPoint) {
  Series series = made_series({1, 2});
  cut_into_phases(series, {{series.points[0].at - 5, "before"}, {series.points[1].at + 5, "after"}});
  EXPECT_EQ(series.phases.size(), 1U);
}

TEST(Phases, OfTwoThingsDoneBetweenTwoPointsTakeTheLater) {
  Series series = made_series({1, 2});
  cut_into_phases(series, {{series.points[1].at - 5, "second"}, {series.points[1].at - 10, "first"}});
  ASSERT_EQ(series.phases.size(), 2U);
  EXPECT_EQ(series.phases[1].reason, "second");
}

TEST(Phases, OfAnEmptySeriesAreEmpty) {
  const Series series = made_series({});
  ASSERT_EQ(series.phases.size(), 1U);
  EXPECT_EQ(series.phases[0].count, 0U);
}

// On the tolerance is not beyond it; a void point isn't counted.
TEST(BeyondTolerance, CountsThePointsAndNamesTheLast) {
  Series series = made_series({1, 5, 5.1, -6, 7});
  EXPECT_EQ(beyond_tolerance_said(series, TimeZone::utc()), "");
  series.tolerance = {missing, 5, "own/drift"};
  EXPECT_EQ(beyond_tolerance_said(series, TimeZone::utc()), "2 points beyond the tolerance, the last on 2026-01-05");
  series.points[4].is_void = true;
  EXPECT_EQ(beyond_tolerance_said(series, TimeZone::utc()), "1 point beyond the tolerance, on 2026-01-03");
}

TEST(Series, OfOneCountedPointIsNoChart) {
  Series series = made_series({1, 2});
  EXPECT_TRUE(has_a_chart(series));
  series.points[0].is_void = true;
  EXPECT_FALSE(has_a_chart(series));
}

}  // namespace
}  // namespace driftwarden::series_test

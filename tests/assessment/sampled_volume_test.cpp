// SPDX-License-Identifier: MIT
#include "assessment/sampled_volume.hpp"

#include <gtest/gtest.h>

#include "book/timestamp.hpp"
#include "record/sample.hpp"

namespace driftwarden::sampled_volume_test {
namespace {

// Denver's clocks in 2026: forward on 8 March at 02:00, back on 1 November at 02:00.
const TimeZone denver = *TimeZone::named("MST7MDT,M3.2.0,M11.1.0", {});

Moment at(std::string_view local) {
  StampReader reader(denver, DateOrder::iso);
  Moment moment = no_moment;
  EXPECT_TRUE(reader.read(local, moment)) << local;
  return moment;
}

double minutes(std::string_view from, std::string_view to, double paused = missing) {
  return minutes_sampled(at(from), at(to), paused);
}

TEST(MinutesSampled, AreStoppedMinusStartedMinusPaused) {
  EXPECT_EQ(minutes("2026-09-21T07:00", "2026-09-21T15:00"), 480);
  EXPECT_EQ(minutes("2026-09-21T07:00", "2026-09-21T15:00", 30), 450);
  EXPECT_EQ(minutes("2026-09-21T07:00:00", "2026-09-21T07:00:30"), 0.5);
}

TEST(MinutesSampled, CountTheHourThatTheAutumnChangeRepeats) {
  EXPECT_EQ(minutes("2026-10-31T22:00", "2026-11-01T06:00"), 540);  // 480 by the hands of the clock
  EXPECT_EQ(minutes("2026-11-01T01:30-06:00", "2026-11-01T01:30-07:00"), 60);
}

TEST(MinutesSampled, LeaveOutTheHourThatTheSpringChangeSkips) {
  EXPECT_EQ(minutes("2026-03-07T22:00", "2026-03-08T06:00"), 420);  // 480 by the hands of the clock
  EXPECT_EQ(minutes("2026-03-08T01:59", "2026-03-08T03:00"), 1);
}

TEST(MinutesSampled, AreNoneWhereTheWholeRunWasPaused) {
  EXPECT_EQ(minutes("2026-09-21T07:00", "2026-09-21T08:00", 60), 0);
}

TEST(MinutesSampled, AreMissingWhereATimeIsOrWhereThePausesAreLongerThanTheRun) {
  EXPECT_TRUE(is_missing(minutes_sampled(no_moment, 0, missing)));
  EXPECT_TRUE(is_missing(minutes_sampled(0, no_moment, missing)));
  EXPECT_TRUE(is_missing(minutes("2026-09-21T07:00", "2026-09-21T08:00", 60.5)));
}

// own input: the volumes of 480 minutes, 936.96, 913.92, 960 and 960 L; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(FlowForVolume, IsWhatThePracticeSays) {
  EXPECT_NEAR(480 * flow_for_volume(2.000, 1.904, 2.0, FlowForVolume::mean), 936.96, 1e-9);
  EXPECT_NEAR(480 * flow_for_volume(2.000, 1.904, 2.0, FlowForVolume::lower), 913.92, 1e-9);
  EXPECT_EQ(480 * flow_for_volume(2.000, 1.904, 2.0, FlowForVolume::pre), 960);
  EXPECT_EQ(480 * flow_for_volume(2.100, 1.904, 2.0, FlowForVolume::nominal), 960);
}

TEST(FlowForVolume, LowerIsTheLowerOfTheTwoWhicheverItIs) {
  EXPECT_EQ(flow_for_volume(1.9, 2.0, missing, FlowForVolume::lower), 1.9);
  EXPECT_EQ(flow_for_volume(2.0, 1.9, missing, FlowForVolume::lower), 1.9);
}

TEST(FlowForVolume, IsMissingWhereAFlowItNeedsIs) {
  EXPECT_TRUE(is_missing(flow_for_volume(missing, 2.0, 2.0, FlowForVolume::mean)));
  EXPECT_TRUE(is_missing(flow_for_volume(2.0, missing, 2.0, FlowForVolume::mean)));
  EXPECT_TRUE(is_missing(flow_for_volume(missing, 2.0, 2.0, FlowForVolume::lower)));
  EXPECT_TRUE(is_missing(flow_for_volume(2.0, missing, 2.0, FlowForVolume::lower)));
  EXPECT_TRUE(is_missing(flow_for_volume(missing, 2.0, 2.0, FlowForVolume::pre)));
  EXPECT_TRUE(is_missing(flow_for_volume(2.0, 2.0, missing, FlowForVolume::nominal)));
}

TEST(FlowForVolume, OfPreOrNominalDoesWithoutAPostFlow) {
  EXPECT_EQ(flow_for_volume(2.0, missing, missing, FlowForVolume::pre), 2.0);
  EXPECT_EQ(flow_for_volume(missing, missing, 1.7, FlowForVolume::nominal), 1.7);
}

}  // namespace
}  // namespace driftwarden::sampled_volume_test

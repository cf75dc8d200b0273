// SPDX-License-Identifier: MIT
#include "assessment/practice.hpp"

#include <gtest/gtest.h>

namespace driftwarden::practice_test {
namespace {

TEST(Practice, NamesFlowsAsPacksWriteThem) {
  EXPECT_EQ(to_text(FlowForVolume::mean), "mean");
  EXPECT_EQ(to_text(FlowForVolume::lower), "lower");
  EXPECT_EQ(to_text(FlowForVolume::pre), "pre");
  EXPECT_EQ(to_text(FlowForVolume::nominal), "nominal");
}

TEST(Practice, NamesBasesAsPacksWriteThem) {
  EXPECT_EQ(to_text(DriftBase::pre), "pre");
  EXPECT_EQ(to_text(DriftBase::post), "post");
  EXPECT_EQ(to_text(DriftBase::mean), "mean");
  EXPECT_EQ(to_text(DriftBase::nominal), "nominal");
}

TEST(Practice, IsMeanFlowAndDriftOfThePreFlowUnlessSomebodyChooses) {
  const AssessmentPractice practice;
  EXPECT_EQ(practice.flow_for_volume, FlowForVolume::mean);
  EXPECT_EQ(practice.drift_base, DriftBase::pre);
  EXPECT_EQ(practice.correction.rotameter, RotameterCorrection::always);
  EXPECT_EQ(practice.correction.bubble_humidity, BubbleHumidity::none);
}

}  // namespace
}  // namespace driftwarden::practice_test

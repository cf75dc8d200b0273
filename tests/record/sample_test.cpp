// SPDX-License-Identifier: MIT
#include "record/sample.hpp"

#include <gtest/gtest.h>

namespace driftwarden::sample_test {
namespace {

TEST(Sample, KindsAreWrittenAsInTheTable) {
  EXPECT_EQ(to_text(SampleKind::sample), "sample");
  EXPECT_EQ(to_text(SampleKind::blank), "blank");
}

TEST(Sample, AMissingFigureIsNoFigure) {
  EXPECT_TRUE(is_missing(missing));
  EXPECT_FALSE(is_missing(0.0));
}

TEST(Sample, AColumnNobodyWroteReadsAsMissing) {
  const SampleTable samples;
  EXPECT_TRUE(is_missing(field(samples.paused_min, 3)));
  EXPECT_EQ(field(samples.kind, 3, SampleKind::sample), SampleKind::sample);
  EXPECT_EQ(samples.size(), 0U);
}

}  // namespace
}  // namespace driftwarden::sample_test

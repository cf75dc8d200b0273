// SPDX-License-Identifier: MIT
#include "verdict/screening.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::screening_test {
namespace {

RuleText drift_within(const std::string& limit) { return {Subject::sample, "drift", "within", {limit}}; }

TEST(Screening, WorksOutOverlapsOnlyWhereARuleAsksForThem) {
  BookText text;
  text.samples += "S2,P1,2026-09-21T15:35,2026-09-21T17:00\n";
  const JudgedBook without(text, {{drift_within("5 %")}});
  EXPECT_TRUE(is_missing(without.screening().overlap(0).minutes));
  JudgedBook with(text, {{{Subject::sample, "overlap", "at_most", {"0 min"}}}});
  EXPECT_EQ(with.screening().overlap(0).minutes, 25);
  EXPECT_EQ(with.result("S1").verdict, Verdict::void_);
}

TEST(Screening, TakesThePracticesOfItsRules) {
  const AssessmentPractice preset = practice_of(RulesText{}.rule_set().practice);
  EXPECT_EQ(preset.flow_for_volume, FlowForVolume::mean);
  EXPECT_EQ(preset.drift_base, DriftBase::pre);
  EXPECT_EQ(preset.correction.rotameter, RotameterCorrection::always);
  EXPECT_EQ(preset.correction.bubble_humidity, BubbleHumidity::none);
}

AssessmentPractice chosen(const std::string& key, const std::string& value) {
  return practice_of(RulesText{{}, {}, {practice(key, value)}}.rule_set().practice);
}

TEST(Screening, TakesEveryWordOfEveryPractice) {
  EXPECT_EQ(chosen("flow_for_volume", "mean").flow_for_volume, FlowForVolume::mean);
  EXPECT_EQ(chosen("flow_for_volume", "lower").flow_for_volume, FlowForVolume::lower);
  EXPECT_EQ(chosen("flow_for_volume", "pre").flow_for_volume, FlowForVolume::pre);
  EXPECT_EQ(chosen("flow_for_volume", "nominal").flow_for_volume, FlowForVolume::nominal);
  EXPECT_EQ(chosen("field_sets", "ends").field_sets, FieldSets::ends);
  EXPECT_EQ(chosen("field_sets", "line").field_sets, FieldSets::line);
  EXPECT_EQ(chosen("drift_base", "post").drift_base, DriftBase::post);
  EXPECT_EQ(chosen("drift_base", "mean").drift_base, DriftBase::mean);
  EXPECT_EQ(chosen("drift_base", "nominal").drift_base, DriftBase::nominal);
  EXPECT_EQ(chosen("rotameter_correction", "beyond 5 %").correction.rotameter, RotameterCorrection::beyond_5_percent);
  EXPECT_EQ(chosen("rotameter_correction", "never").correction.rotameter, RotameterCorrection::never);
  EXPECT_EQ(chosen("bubble_humidity", "ambient").correction.bubble_humidity, BubbleHumidity::ambient);
  EXPECT_EQ(chosen("bubble_humidity", "dry").correction.bubble_humidity, BubbleHumidity::dry);
}

}  // namespace
}  // namespace driftwarden::screening_test

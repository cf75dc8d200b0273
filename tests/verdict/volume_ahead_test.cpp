// SPDX-License-Identifier: MIT
#include "verdict/volume_ahead.hpp"

#include <gtest/gtest.h>

#include "verdict/ahead_book.hpp"

namespace driftwarden::volume_ahead_test {
namespace {

// derived: V = 1000 m / c and t = V / Q, by hand.

TEST(VolumeAhead, IsTheLeastThatShowsTheTargetAndTheMostThatDoesNotOverload) {
  JudgedBook book({}, ahead_rules());
  const VolumeAhead ahead = volume_of(book, asked_for(0.5, 4));
  ASSERT_NE(ahead.least_end(), nullptr);
  EXPECT_EQ(ahead.least_end()->from, VolumeEnd::From::mass);
  EXPECT_EQ(ahead.least_end()->volume_l, 200) << "1000 * 0.1 / 0.5";
  EXPECT_EQ(ahead.least_end()->minutes, 100);
  EXPECT_EQ(ahead.fact_of(*ahead.least_end())->value, 0.1);
  EXPECT_EQ(ahead.most_end()->volume_l, 500) << "1000 * 2 / 4, and not the 400 L that stand for it";
  EXPECT_FALSE(ahead.is_impossible());
  EXPECT_EQ(ahead.ends.size(), 6U);
}

TEST(VolumeAhead, IsHeldToTheTimesThatRulesAllow) {
  JudgedBook book({}, ahead_rules());
  const VolumeAhead ahead = volume_of(book, asked_for(5, 1));
  EXPECT_EQ(ahead.least_end()->from, VolumeEnd::From::time_rule);
  EXPECT_EQ(ahead.least_end()->volume_l, 90) << "45 min at 2 L/min, more than the 20 L of both others";
  EXPECT_EQ(ahead.most_end()->from, VolumeEnd::From::time_rule);
  EXPECT_EQ(ahead.most_end()->volume_l, 960) << "8 h; 2 mg are reached at 2000 L";
}

// What NMAM 0600 says: the ceiling follows from the mass, so mass first and volume second.
TEST(VolumeAhead, TakesACeilingAsItIsStatedOnlyWhereNobodySaysWhatIsExpected) {
  JudgedBook book({}, ahead_rules());
  const VolumeAhead as_stated = volume_of(book, asked_for(0.2, missing));
  EXPECT_EQ(as_stated.most_end()->rule->full_name(), "own/volume");
  EXPECT_EQ(as_stated.most_end()->volume_l, 400);
  EXPECT_TRUE(as_stated.is_impossible()) << "500 L are needed";
  const VolumeAhead by_mass = volume_of(book, asked_for(0.2, 1));
  EXPECT_EQ(by_mass.most_end()->volume_l, 960);
  EXPECT_FALSE(by_mass.is_impossible());
  RulesText strict = ahead_rules();
  strict.rules[1].otherwise = Otherwise::qualify;
  JudgedBook qualifies({}, strict);
  EXPECT_EQ(volume_of(qualifies, asked_for(0.2, 1)).most_end()->volume_l, 400) << "a rule that qualifies counts anyhow";
}

TEST(VolumeAhead, IsPossibleWhereBothEndsAreOne) {
  JudgedBook book({}, ahead_rules());
  EXPECT_FALSE(volume_of(book, asked_for(0.2, 4)).is_impossible()) << "500 L and 500 L";
  EXPECT_TRUE(volume_of(book, asked_for(0.2, 4.01)).is_impossible());
}

RulesText two_rules(RuleText first, RuleText second) {
  RulesText rules = ahead_rules();
  rules.rules = {std::move(first), std::move(second)};
  return rules;
}

// What lies on them does not keep them: 120 L and 60 min are too little, 200 L and 100 min too much.
TEST(VolumeAhead, ExcludesTheEndsThatARuleExcludes) {
  JudgedBook book({}, two_rules({Subject::sample, "minutes", "more_than", {"60 min"}},
                                {Subject::sample, "volume", "less_than", {"200 L"}}));
  const VolumeAhead ahead = volume_of(book, asked_for(missing, missing));
  EXPECT_FALSE(ahead.least_end()->includes_it);
  EXPECT_EQ(ahead.least_end()->whole_minutes(), 61);
  EXPECT_EQ(ahead.most_end()->whole_minutes(), 99);
  EXPECT_FALSE(ahead.is_impossible());
}

TEST(VolumeAhead, HasNoRoomInOneEndThatARuleExcludes) {
  const RuleText least{Subject::sample, "volume", "at_least", {"200 L"}};
  JudgedBook excluded({}, two_rules(least, {Subject::sample, "volume", "less_than", {"200 L"}}));
  EXPECT_TRUE(volume_of(excluded, asked_for(missing, missing)).is_impossible());
  JudgedBook included({}, two_rules(least, {Subject::sample, "volume", "at_most", {"200 L"}}));
  EXPECT_FALSE(volume_of(included, asked_for(missing, missing)).is_impossible());
}

TEST(VolumeAhead, TakesTheRuleThatExcludesAnEndBeforeOneThatIncludesIt) {
  JudgedBook book({}, two_rules({Subject::sample, "volume", "at_least", {"120 L"}},
                                {Subject::sample, "minutes", "more_than", {"60 min"}}));
  EXPECT_EQ(volume_of(book, asked_for(missing, missing)).least_end()->whole_minutes(), 61);
}

// derived: 100 L at 25 °C and 101.325 kPa are 100 * (101.325 / 84.5) * (283.15 / 298.15) = 113.879 L at 10 °C and
// 84.5 kPa.
TEST(VolumeAhead, TurnsAVolumeAtReferenceConditionsIntoTheAirThatIsExpected) {
  JudgedBook book({}, two_rules({Subject::sample, "volume.reference", "at_least", {"100 L"}},
                                {Subject::sample, "volume.reference", "less_than", {"200 L"}}));
  VolumeAsked asked = asked_for(missing, missing);
  asked.air = {283.15, 84.5, missing};
  const VolumeAhead ahead = volume_of(book, asked);
  ASSERT_NE(ahead.least_end(), nullptr);
  EXPECT_NEAR(ahead.least_end()->volume_l, 113.879, 1e-3);
  EXPECT_EQ(ahead.least_end()->reference_l, 100);
  EXPECT_NEAR(ahead.most_end()->minutes, 113.879, 1e-3);
  EXPECT_TRUE(ahead.not_looked_at.empty());
}

TEST(VolumeAhead, SaysWhichRulesItCantLookAt) {
  JudgedBook book({}, two_rules({Subject::sample, "volume.reference", "at_least", {"100 L"}},
                                {Subject::sample, "volume.uncertainty", "at_most", {"5 %"}}));
  VolumeAsked asked = asked_for(missing, missing);
  EXPECT_EQ(volume_of(book, asked).not_looked_at.size(), 2U) << "nobody says the air";
  asked.air = {283.15, 84.5, missing};
  const VolumeAhead ahead = volume_of(book, asked);
  ASSERT_EQ(ahead.not_looked_at.size(), 1U);
  EXPECT_EQ(ahead.not_looked_at[0]->full_name(), "own/volume.uncertainty");
}

TEST(VolumeAhead, KnowsNothingOfAMethodThatNobodyDescribes) {
  JudgedBook book({}, ahead_rules());
  VolumeAsked asked = asked_for(0.05, 1);
  asked.sample.method = "N";
  const VolumeAhead ahead = volume_of(book, asked);
  EXPECT_EQ(ahead.least_end()->volume_l, 90);
  EXPECT_EQ(ahead.most_end()->volume_l, 400) << "without a loading the ceiling is all there is";
  EXPECT_FALSE(ahead.facts.of(MassFactKind::quantification));
}

TEST(VolumeAhead, HoldsNoVolumeAgainstATimeWithoutAFlow) {
  JudgedBook book({}, ahead_rules());
  const VolumeAhead ahead = volume_of(book, asked_for(0.05, 10, missing));
  EXPECT_EQ(ahead.least_end()->volume_l, 2000);
  EXPECT_TRUE(is_missing(ahead.least_end()->minutes));
  EXPECT_TRUE(ahead.is_impossible()) << "200 L overload it";
  EXPECT_FALSE(volume_of(book, asked_for(0.05, 0.5, missing)).is_impossible()) << "4000 L; 8 h may be anything";
}

TEST(VolumeEnd, RoundsItsMinutesIntoTheWindow) {
  VolumeEnd end;
  EXPECT_TRUE(is_missing(end.whole_minutes()));
  end.minutes = 117.6;
  EXPECT_EQ(end.whole_minutes(), 117);
  end.is_least = true;
  EXPECT_EQ(end.whole_minutes(), 118);
  end.minutes = 0.1 * 3 * 1000;
  EXPECT_EQ(end.whole_minutes(), 300) << "a double says a little more";
}

TEST(WindowHelp, SaysWhatWouldFit) {
  JudgedBook book({}, ahead_rules());
  const VolumeAsked asked = asked_for(0.05, 1);
  const VolumeAhead ahead = volume_of(book, asked);
  ASSERT_TRUE(ahead.is_impossible()) << "2000 L take 1000 min";
  const WindowHelp help = window_help(asked, ahead);
  EXPECT_NEAR(help.target_mg_m3.at, 100.0 / 960, 1e-12);
  EXPECT_NEAR(help.quantification_mg.at, 0.05 * 0.96, 1e-12);
  EXPECT_NEAR(help.flow_from_l_min.at, 2000.0 / 480, 1e-12);
  EXPECT_NEAR(help.flow_to_l_min.at, 2000.0 / 45, 1e-12) << "2 mg at 1 mg/m3, in no less than 45 min";
  EXPECT_NEAR(help.expected_mg_m3, 1, 1e-12) << "2 mg in 2000 L";
}

// 50 L hold the target: it is the time that is too long for the volume, and only a lower flow helps.
TEST(WindowHelp, SpeaksOfNoTargetOrLaboratoryWhereRulesLeaveNoRoom) {
  JudgedBook book({}, two_rules({Subject::sample, "minutes", "at_least", {"180 min"}},
                                {Subject::sample, "volume", "less_than", {"200 L"}}));
  const VolumeAsked asked = asked_for(2, missing);
  const VolumeAhead ahead = volume_of(book, asked);
  ASSERT_TRUE(ahead.is_impossible()) << "360 L";
  const WindowHelp help = window_help(asked, ahead);
  EXPECT_TRUE(is_missing(help.target_mg_m3.at));
  EXPECT_TRUE(is_missing(help.quantification_mg.at));
  EXPECT_TRUE(is_missing(help.flow_from_l_min.at));
  EXPECT_NEAR(help.flow_to_l_min.at, 200.0 / 180, 1e-12);
  EXPECT_FALSE(help.flow_to_l_min.includes_it);
  VolumeAsked slower = asked;
  slower.sample.nominal_l_min = 1.1;
  EXPECT_FALSE(volume_of(book, slower).is_impossible());
}

TEST(WindowHelp, IsNoneWhereTheTimesThemselvesLeaveNoRoom) {
  JudgedBook book({}, two_rules({Subject::sample, "minutes", "at_least", {"180 min"}},
                                {Subject::sample, "minutes", "at_most", {"120 min"}}));
  const VolumeAsked asked = asked_for(2, missing);
  const WindowHelp help = window_help(asked, volume_of(book, asked));
  EXPECT_TRUE(is_missing(help.target_mg_m3.at));
  EXPECT_TRUE(is_missing(help.flow_from_l_min.at));
  EXPECT_TRUE(is_missing(help.flow_to_l_min.at));
}

}  // namespace
}  // namespace driftwarden::volume_ahead_test

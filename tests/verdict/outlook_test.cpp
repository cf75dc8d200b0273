// SPDX-License-Identifier: MIT
#include "verdict/outlook.hpp"

#include <gtest/gtest.h>

#include "verdict/ahead_book.hpp"

namespace driftwarden::outlook_test {
namespace {

constexpr Day a_day = 20717;

SampleOutlook outlook(const VolumeAsked& asked, double minutes = missing, const BookText& text = {}) {
  static std::unique_ptr<JudgedBook> book;
  book = std::make_unique<JudgedBook>(text, ahead_rules());
  return sample_outlook(book->screening(), asked, minutes, a_day * Moment{86400}, a_day);
}

// derived: 1000 x 0.1 / 0.333 = 300.3 L, and 2000 / 6.655 = 300.53 L, at 2 L/min; 1000 x 0.1 / 0.05 / 2 = 1000 min.
TEST(Outlook, PlansTheLeastInWholeMinutesThatAreEnough) {
  EXPECT_EQ(outlook(asked_for(0.5, 1)).minutes, 100) << "exactly";
  EXPECT_EQ(outlook(asked_for(0.3, 1)).minutes, 167) << "166.7 min";
  EXPECT_FALSE(outlook(asked_for(0.3, 1)).minutes_were_said);
  EXPECT_TRUE(is_missing(outlook(asked_for(0.3, 1, missing)).minutes));
  EXPECT_TRUE(is_missing(outlook(asked_for(0.333, 6.655)).minutes)) << "no whole minute fits";
  EXPECT_EQ(outlook(asked_for(0.05, 1)).minutes, 1000) << "no volume fits";
}

TEST(Outlook, IsAmissWhereTheMinutesThatWereSaidLeaveTheWindow) {
  EXPECT_FALSE(outlook(asked_for(0.5, 1), 100).is_amiss());
  EXPECT_FALSE(outlook(asked_for(0.5, 1), 480).is_amiss());
  EXPECT_TRUE(outlook(asked_for(0.5, 1), 99).is_amiss());
  EXPECT_TRUE(outlook(asked_for(0.5, 1), 481).is_outside());
  EXPECT_TRUE(outlook(asked_for(0.05, 1)).is_amiss()) << "no volume fits";
  EXPECT_FALSE(outlook(asked_for(0.05, 1)).is_outside()) << "and no minutes were said";
  Outlook all;
  EXPECT_FALSE(all.is_amiss());
  all.samples = {outlook(asked_for(0.5, 1)), outlook(asked_for(0.05, 1))};
  EXPECT_TRUE(all.is_amiss());
}

TEST(Outlook, CountsMinutesOnAnEndThatARuleExcludesAsOutside) {
  RulesText rules;
  rules.rules = {{Subject::sample, "minutes", "more_than", {"60 min"}},
                 {Subject::sample, "volume", "less_than", {"200 L"}}};
  const JudgedBook book({}, rules);
  const auto is_outside = [&](double minutes) {
    return sample_outlook(book.screening(), asked_for(missing, missing), minutes, 0, a_day).is_outside();
  };
  EXPECT_TRUE(is_outside(60));
  EXPECT_FALSE(is_outside(61));
  EXPECT_FALSE(is_outside(99));
  EXPECT_TRUE(is_outside(100));
}

TEST(Outlook, SaysWhatSpeaksAgainstItsInstruments) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,out of service\nP1,pump,,2026-09-01\nP2,pump,,\nV1,calibrator,volumetric,\n"
      "V2,calibrator,volumetric,\n";
  VolumeAsked asked = asked_for(0.5, 1);
  EXPECT_TRUE(outlook(asked, missing, text).against.empty());
  asked.sample.pump = 0;
  asked.sample.calibrator = 2;
  const SampleOutlook told = outlook(asked, missing, text);
  ASSERT_EQ(told.against.size(), 1U);
  EXPECT_TRUE(told.against[0].starts_with("P1: ")) << told.against[0];
}

}  // namespace
}  // namespace driftwarden::outlook_test

// SPDX-License-Identifier: MIT
#include "report/ahead_help.hpp"

#include <gtest/gtest.h>

#include "report/ahead_outlook.hpp"

namespace driftwarden::ahead_help_test {
namespace {

using Texts = std::vector<std::string>;

Texts words_by(std::vector<RuleText> rules, const VolumeAsked& asked) {
  RulesText text = ahead_rules();
  text.rules = std::move(rules);
  const OutlookBook book(text);
  return help_words(book.outlook(asked).samples[0]);
}

Texts words(const VolumeAsked& asked) { return words_by(ahead_rules().rules, asked); }

TEST(AheadHelp, SaysWhatWouldHelpWhereNoVolumeFits) {
  EXPECT_EQ(words(asked_for(0.05, 1)),
            (Texts{"a target of 0.105 mg/m3 or more, which 960 L can show",  // 0.10417, and 0.104 is less
                   "a laboratory that quantifies 0.048 mg or less",
                   "a sampler that is made for 4.17 L/min or more and 44.4 L/min or less"}));
}

TEST(AheadHelp, SaysThatAnExpectedConcentrationWouldHelpOnlyWhereItWould) {
  EXPECT_TRUE(
      words(asked_for(0.2, missing)).at(0).starts_with("to say what dust is expected: 400 L stand for the mass"));
  EXPECT_FALSE(words(asked_for(0.05, missing)).at(0).starts_with("to say")) << "8 h are too short anyhow";
}

TEST(AheadHelp, SaysOnlyWhatWouldHelp) {
  const RuleText at_least{Subject::sample, "minutes", "at_least", {"180 min"}};
  EXPECT_EQ(words_by({at_least, {Subject::sample, "volume", "less_than", {"200 L"}}}, asked_for(2, missing)),
            Texts{"a sampler that is made for 1.11 L/min or less"});
  EXPECT_EQ(words_by({at_least, {Subject::sample, "minutes", "at_most", {"120 min"}}}, asked_for(2, missing)),
            Texts{"neither another target nor another laboratory or flow by itself"});
}

}  // namespace
}  // namespace driftwarden::ahead_help_test

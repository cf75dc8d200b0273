// SPDX-License-Identifier: MIT
#include "report/ahead_texts.hpp"

#include <gtest/gtest.h>

#include "report/ahead_outlook.hpp"

namespace driftwarden::ahead_texts_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::string table(const VolumeAsked& asked, double minutes = missing) {
  const OutlookBook book;
  return ahead_table(book.book(), book.outlook(asked, minutes), 20717);
}

TEST(AheadTable, TellsTheWindowWithEachEndsReason) {
  const std::string text = table(asked_for(0.5, 4));
  EXPECT_TRUE(
      text.starts_with("Quarry, as of 2026-09-21\nM with cowl at 2 L/min: 0.5 mg/m3 has to be found, 4 mg/m3 of "
                       "dust is expected\n\nAir: at least 100 min (200 L), at most 250 min (500 L)\n"
                       "  least       200 L, 100 min: 0.1 mg to be quantified: 1000 · 0.1 mg / 0.5 mg/m3\n"
                       "              20 L, 10 min: at least 20 L, else qualified (own/volume) [own.toml:1:1]\n"))
      << text;
  EXPECT_TRUE(has(text, "400 L, 200 min: at most 400 L, else note (own/volume) [own.toml:1:1]. It stands for"));
  EXPECT_TRUE(has(text, "quantification as stated: A source (read) [own.toml:2:1]."));
  EXPECT_TRUE(has(text, "\nBlanks: 5 for 24 samples\n  2           at least 2, else qualified (own/blanks)"));
  EXPECT_FALSE(has(text, "would help"));
}

TEST(AheadTable, RoundsToMinutesThatLieInside) {
  EXPECT_TRUE(
      has(table(asked_for(0.3, 7)), "Air: at least 167 min (333.3 L), at most 142 min (285.7 L)") ||
      has(table(asked_for(0.3, 7)), "Air: no volume fits: at least 167 min (333.3 L) and at most 142 min (285.7 L)"));
}

TEST(AheadTable, SaysWhatWouldHelpWhereNoVolumeFits) {
  const std::string text = table(asked_for(0.05, 1));
  EXPECT_TRUE(has(text, "Air: no volume fits: at least 1000 min (2000 L) and at most 480 min (960 L)\n")) << text;
  EXPECT_TRUE(has(text, "a target of 0.105 mg/m3 or more, which 960 L can show\n")) << "0.10417, and 0.104 is less";
  EXPECT_TRUE(has(text, "a laboratory that quantifies 0.048 mg or less\n"));
  EXPECT_TRUE(has(text, "a sampler that is made for 4.17 L/min or more and 44.4 L/min or less\n"));
}

TEST(AheadTable, SaysThatAnExpectedConcentrationWouldHelpOnlyWhereItWould) {
  EXPECT_TRUE(
      has(table(asked_for(0.2, missing)), "  would help  to say what dust is expected: 400 L stand for the mass"));
  EXPECT_FALSE(has(table(asked_for(0.05, missing)), "to say what dust is expected")) << "8 h are too short anyhow";
}

std::string table_by(std::vector<RuleText> rules, const VolumeAsked& asked, double minutes = missing) {
  RulesText text = ahead_rules();
  text.rules = std::move(rules);
  const OutlookBook book(text);
  return ahead_table(book.book(), book.outlook(asked, minutes), 20717);
}

TEST(AheadTable, SaysThatAnEndIsExcluded) {
  const std::vector<RuleText> rules = {{Subject::sample, "minutes", "more_than", {"60 min"}},
                                       {Subject::sample, "volume", "less_than", {"200 L"}}};
  EXPECT_TRUE(has(table_by(rules, asked_for(missing, missing)),
                  "Air: at least 61 min (more than 120 L), at most 99 min (less than 200 L)\n"));
  EXPECT_TRUE(has(table_by(rules, asked_for(missing, missing), 100), "  as planned  100 min lie outside\n"));
}

TEST(AheadTable, SaysOnlyWhatWouldHelp) {
  const std::vector<RuleText> rules = {{Subject::sample, "minutes", "at_least", {"180 min"}},
                                       {Subject::sample, "volume", "less_than", {"200 L"}}};
  const std::string text = table_by(rules, asked_for(2, missing));
  EXPECT_TRUE(has(text, "  would help  a sampler that is made for 1.11 L/min or less\n")) << text;
  EXPECT_FALSE(has(text, "a target of"));
  EXPECT_TRUE(has(table_by({{Subject::sample, "minutes", "at_least", {"180 min"}},
                            {Subject::sample, "minutes", "at_most", {"120 min"}}},
                           asked_for(2, missing)),
                  "  would help  neither another target nor another laboratory or flow by itself\n"));
}

TEST(AheadTable, SaysWhichRulesItHasNotLookedAt) {
  const std::vector<RuleText> rules = {{Subject::sample, "volume.reference", "at_least", {"100 L"}},
                                       {Subject::sample, "volume.uncertainty", "at_most", {"5 %"}}};
  VolumeAsked asked = asked_for(missing, missing);
  const std::string text = table_by(rules, asked);
  EXPECT_TRUE(has(text, "  not seen    volume.uncertainty at most 5 %, else void (own/volume.uncertainty)")) << text;
  EXPECT_TRUE(has(text, "volume.reference at least 100 L, else void (own/volume.reference)"));
  asked.air = {283.15, 84.5, missing};
  EXPECT_TRUE(
      has(table_by(rules, asked), "Air: at least 57 min (113.9 L)\n  least       113.9 L, 56.9 min: at least 100 L"));
  EXPECT_TRUE(has(table_by(rules, asked), "reference conditions; as drawn in air of 10 °C and 84.5 kPa\n"));
}

TEST(AheadTable, PrintsNoMinutesThatAreNoSamplingTime) {
  EXPECT_TRUE(has(table(asked_for(1e-9, missing)), "Air: no volume fits: at least over 1000000 min"));
}

TEST(AheadTable, SaysWhatLacks) {
  VolumeAsked asked = asked_for(missing, missing, missing);
  EXPECT_TRUE(has(table(asked), "No target is said: no least volume by mass.\n"));
  EXPECT_TRUE(has(table(asked), "Nobody says at which flow"));
  asked.sample.method = "N";
  EXPECT_TRUE(has(table(asked), "Neither a pack nor book.toml states what mass N can quantify"));
}

TEST(AheadTable, SaysWhetherTheMinutesThatWereSaidFit) {
  EXPECT_TRUE(has(table(asked_for(0.5, 1), 120), "  as planned  120 min lie inside, as far as it is known\n"));
  EXPECT_TRUE(has(table(asked_for(0.5, 1), 90), "  as planned  90 min lie outside\n"));
}

TEST(AheadTable, TellsOfABatchALineEach) {
  const OutlookBook book;
  Outlook outlook = book.outlook(asked_for(0.5, 4));
  outlook.batch = "B1";
  outlook.samples[0].asked.sample.name = "N1";
  const std::string text = ahead_table(book.book(), outlook, 20717);
  EXPECT_TRUE(has(text,
                  "\nbatch B1\nN1, M with cowl at 2 L/min: 0.5 mg/m3 has to be found, 4 mg/m3 of dust is expected\n"
                  "  at least 100 min (200 L), at most 250 min (500 L)\n"))
      << text;
}

TEST(AheadTable, SaysWhyABatchHasNothingToTellOf) {
  const OutlookBook book;
  Outlook outlook = book.outlook(asked_for(0.5, 4));
  outlook.batch = "B1";
  outlook.samples.clear();
  EXPECT_TRUE(has(ahead_table(book.book(), outlook, 20717), "\n  every sample of it is recorded already\n"));
  outlook.is_of_blanks = true;
  EXPECT_TRUE(
      has(ahead_table(book.book(), outlook, 20717), "\n  it has nothing but blanks, of which no air is planned\n"));
}

TEST(AheadTable, ForetellsTheDriftAndSaysWhyNot) {
  const OutlookBook book;
  Outlook outlook = book.outlook(asked_for(0.5, 4));
  outlook.samples[0].asked.sample.pump = 0;
  EXPECT_TRUE(has(ahead_table(book.book(), outlook, 20717),
                  "\nFlow: P1\n  drift       not foretold: 0 earlier uses of the pump say too little, five are needed\n"
                  "  volume      not foretold: no pump is said\n"));
  DriftAhead& drift = outlook.samples[0].drift;
  drift.earlier = {10, 0.02};
  drift.within = 0.045;  // input: figures of a drift, made up
  static const Rule rule = RuleText{Subject::sample, "drift", "within", {"5 %"}}.rule();
  drift.rule = &rule;
  drift.limit_low = -0.05;
  drift.limit_high = 0.05;
  drift.beyond_limits = 0.05;
  EXPECT_TRUE(
      has(ahead_table(book.book(), outlook, 20717),
          "  drift       within ±4.5 % in 95 % of its uses: 10 earlier uses, s = 2 %; beyond ±5 %, which voids\n"
          "              (own/drift), in 5 %\n"))
      << ahead_table(book.book(), outlook, 20717);
  drift.limit_low = -0.02;
  EXPECT_TRUE(has(ahead_table(book.book(), outlook, 20717), "; below -2 % or above 5 %,"));
  drift.limit_high = missing;
  EXPECT_TRUE(has(ahead_table(book.book(), outlook, 20717), "; below -2 %, which"));
}

TEST(WindowText, IsForASheetAndOnlyWhereSomethingIsPlanned) {
  const OutlookBook book;
  const auto text = [&](const VolumeAsked& asked) { return window_text(asked, book.outlook(asked).samples[0].volume); };
  EXPECT_EQ(
      text(asked_for(0.5, 4)),
      "at least 100 min (200 L), at most 250 min (500 L): 0.5 mg/m3 has to be found, 4 mg/m3 of dust is expected");
  EXPECT_EQ(text(asked_for(missing, missing)), "");
}

}  // namespace
}  // namespace driftwarden::ahead_texts_test

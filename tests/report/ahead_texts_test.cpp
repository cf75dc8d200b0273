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

}  // namespace
}  // namespace driftwarden::ahead_texts_test

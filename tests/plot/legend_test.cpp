// SPDX-License-Identifier: MIT
#include "plot/legend.hpp"

#include <gtest/gtest.h>

#include "history/made_series.hpp"
#include "plot/shipped_theme.hpp"

namespace driftwarden::legend_test {
namespace {

// Limits from as few points as there are.
ChartChoices few() {
  ChartChoices choices;
  choices.fewest = 2;
  return choices;
}

SeriesHistory charted(const std::vector<double>& values, const ChartChoices& choices = few()) {
  SeriesHistory history{made_series(values), {}, {}};
  history.charts = control_charts(history.series, choices);
  return history;
}

// All its entries, and its words.
std::string texts_of(const Legend& legend) {
  std::string texts;
  for (const Legend::Entry& entry : legend.entries) texts += entry.text + "\n";
  for (const Legend::Words& words : legend.words) texts += words.text + "\n";
  return texts;
}
std::string texts_of(const SeriesHistory& history) { return texts_of(legend_of(history, {}, shipped_theme())); }

TEST(Legend, SaysThatFewPointsGiveProvisionalLimits) {
  EXPECT_EQ(legend_words(charted({1, 2, 1}), {}).at(0), "Limits from 3 points: provisional, fewer than 20.");
  std::vector<double> values;
  for (int i = 0; i < 25; ++i) values.push_back(i % 2);
  EXPECT_EQ(legend_words(charted(values), {}).at(0), "Limits from 20 points.");
}

TEST(Legend, NamesTheRulesAndHowOftenTheySpeakByChance) {
  const auto words = legend_words(charted({1, 2, 1}), {});
  EXPECT_EQ(words.at(1), "Rules: beyond-limits, run-of-8.");
  EXPECT_EQ(words.at(2), "By chance alone, about one point in 95 is a signal.");  // 1 / (0.0027 + 0.0078)
}

TEST(Legend, CountsTheSignals) {
  ChartChoices choices = few();
  choices.baseline = 6;
  EXPECT_EQ(legend_words(charted({1, 2, 1, 2, 1, 2, 30, 31}, choices), choices).at(3),
            "Signals on the upper chart: beyond-limits 2×.");
  EXPECT_EQ(legend_words(charted({1, 2, 1}), {}).at(3), "No signals on the upper chart.");
}

TEST(Legend, BreaksALongListOfRules) {
  ChartChoices choices = few();
  choices.rules.assign(nelson_rules.begin(), nelson_rules.end());
  const auto words = legend_words(charted({1, 2, 1}), choices);
  EXPECT_TRUE(words.at(1).starts_with("Rules: beyond-limits, run-of-9,"));
  EXPECT_TRUE(words.at(2).ends_with("mixture-of-8."));
  for (const std::string& line : words) EXPECT_LE(line.size(), 80U) << line;
}

TEST(Legend, SaysThatNoRunRulesWereChosen) {
  ChartChoices choices = few();
  choices.rules.clear();
  EXPECT_EQ(legend_words(charted({1, 2, 1}), choices).at(1), "No run rules.");
}

TEST(Legend, SaysWhyThereAreNoLimits) {
  EXPECT_EQ(legend_words(charted({2, 3, 2}, {}), {}),
            std::vector<std::string>{"No control limits: 3 points are too few to say; it takes 8."});
  EXPECT_EQ(
      legend_words(charted(std::vector<double>(9, 2)), {}),
      (std::vector<std::string>{"No control limits: the points they would come from are too few, or all", "alike."}));
}

TEST(Legend, TellsTheLimitsOfANextPointOrWhatTheyLack) {
  SeriesHistory eight = charted({1, 2, 1, 3, 1, 2, 2, 1});
  EXPECT_NE(texts_of(eight).find("beyond it a next point asks for an action"), std::string::npos);
  EXPECT_EQ(legend_words(eight, {}).back().find("next"), std::string::npos);
  eight.phi_of_kind = 0.6;
  EXPECT_EQ(texts_of(eight).find("beyond it a next point"), std::string::npos);
  const std::vector<std::string> words = legend_words(eight, {});
  EXPECT_EQ(words.at(words.size() - 2), "No limits of a next point: its 8 points are too few to say where a next");
  EXPECT_EQ(words.back(), "one asks for an action, for each resembles the one before it.");
}

TEST(Legend, ShowsOnlyWhatThePictureHas) {
  SeriesHistory history = charted({1, 2, 1});
  EXPECT_EQ(texts_of(history).find("void"), std::string::npos);
  EXPECT_EQ(texts_of(history).find("tolerance"), std::string::npos);
  history.series.points[1].is_void = true;
  history.series.tolerance = {-5, 5, "own/drift"};
  EXPECT_NE(texts_of(history).find("void: shown, not counted"), std::string::npos);
  EXPECT_NE(texts_of(history).find("tolerance: own/drift"), std::string::npos);
}

TEST(Legend, NamesTheCalibratorsInsteadOfTheKindOfPoint) {
  const SeriesHistory history = charted({1, 2, 1});
  const std::string texts =
      texts_of(legend_of(history, {}, shipped_theme(), {{shipped_theme().calibrators[0], "read with V-1"}}));
  EXPECT_EQ(texts.find("read with V-1\n"), 0U);
  EXPECT_EQ(texts.find("read for a sample"), std::string::npos);
  EXPECT_NE(texts_of(history).find("read for a sample"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::legend_test

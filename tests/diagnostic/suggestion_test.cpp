// SPDX-License-Identifier: MIT
#include "diagnostic/suggestion.hpp"

#include <gtest/gtest.h>

#include <array>

namespace driftwarden::suggestion_test {
namespace {

constexpr std::array<std::string_view, 4> measures = {"drift", "flow", "minutes", "volume"};

TEST(EditDistance, IsZeroBetweenEqualWordsWhateverTheirCase) {
  EXPECT_EQ(edit_distance("drift", "drift"), 0U);
  EXPECT_EQ(edit_distance("Drift", "dRIFT"), 0U);
  EXPECT_EQ(edit_distance("", ""), 0U);
}

TEST(EditDistance, CountsLettersAddedLeftOutAndChanged) {
  EXPECT_EQ(edit_distance("flow", "flows"), 1U);
  EXPECT_EQ(edit_distance("flow", "flw"), 1U);
  EXPECT_EQ(edit_distance("flow", "slow"), 1U);
  EXPECT_EQ(edit_distance("", "flow"), 4U);
  EXPECT_EQ(edit_distance("flow", ""), 4U);
}

// The textbook pair for the plain edit distance (Levenshtein 1966 as taught; from memory).
TEST(EditDistance, IsThreeFromKittenToSitting) { EXPECT_EQ(edit_distance("kitten", "sitting"), 3U); }

TEST(EditDistance, CountsNeighboursSwappedOnce) {
  EXPECT_EQ(edit_distance("dirft", "drift"), 1U);
  EXPECT_EQ(edit_distance("ab", "ba"), 1U);
  EXPECT_EQ(edit_distance("abcd", "badc"), 2U);
}

TEST(EditDistance, ChangesNoLetterTwice) { EXPECT_EQ(edit_distance("ca", "abc"), 3U); }

TEST(EditDistance, IsTheSameBothWays) {
  for (const std::string_view a : measures) {
    for (const std::string_view b : measures) EXPECT_EQ(edit_distance(a, b), edit_distance(b, a)) << a << ' ' << b;
  }
}

TEST(Nearest, FindsTheWordThatWasMeant) {
  EXPECT_EQ(nearest("dirft", measures), "drift");
  EXPECT_EQ(nearest("FLOW", measures), "flow");
  EXPECT_EQ(nearest("volumes", measures), "volume");
}

TEST(Nearest, AllowsAThirdOfTheLettersToDifferAndNoMore) {
  constexpr std::array<std::string_view, 1> six = {"volume"};
  EXPECT_EQ(nearest("vxxume", six), "volume");
  EXPECT_EQ(nearest("vxxxme", six), "");
}

TEST(Nearest, TakesTheFirstOfEquallyNearWords) {
  constexpr std::array<std::string_view, 2> both = {"slow", "flow"};
  EXPECT_EQ(nearest("glow", both), "slow");
}

TEST(Nearest, FindsNothingForNothing) {
  EXPECT_EQ(nearest("", measures), "");
  EXPECT_EQ(nearest("drift", std::span<const std::string_view>{}), "");
}

TEST(Nearest, DoesNotTroubleWithVeryLongWords) {
  const std::string very_long(100'000, 'x');
  const std::array<std::string, 1> same = {very_long};
  EXPECT_EQ(nearest(very_long, same), "");
}

TEST(DidYouMean, NamesTheNearestWord) {
  EXPECT_EQ(did_you_mean("dirft", measures), "did you mean 'drift'?");
  const std::vector<std::string> names = {"pump", "calibrator"};
  EXPECT_EQ(did_you_mean("calibrater", names), "did you mean 'calibrator'?");
}

TEST(DidYouMean, ListsAShortListWhereNothingIsNear) {
  EXPECT_EQ(did_you_mean("temperature", measures), "known are drift, flow, minutes, volume");
}

TEST(DidYouMean, IsSilentWhereNothingIsNearInALongList) {
  const std::vector<std::string> many(13, "drift");
  EXPECT_EQ(did_you_mean("temperature", many), "");
  const std::vector<std::string> none;
  EXPECT_EQ(did_you_mean("temperature", none), "");
}

TEST(NearestToEach, LooksOnlyWhereFewAreUnknown) {
  const std::vector<std::string_view> known{"PUMP-1", "PUMP-2"};
  const std::map<std::string, std::string> meant = nearest_to_each({"PMUP-1", "else"}, known);
  EXPECT_EQ(meant.at("PMUP-1"), "PUMP-1");
  EXPECT_EQ(meant.at("else"), "");
  std::set<std::string> many;
  for (int i = 0; i < 100; ++i) many.insert("PMUP-" + std::to_string(i));
  EXPECT_EQ(nearest_to_each(many, known).size(), 100U);
  many.insert("one more");
  EXPECT_TRUE(nearest_to_each(many, known).empty());
}

}  // namespace
}  // namespace driftwarden::suggestion_test

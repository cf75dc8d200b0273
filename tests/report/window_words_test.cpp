// SPDX-License-Identifier: MIT
#include "report/window_words.hpp"

#include <gtest/gtest.h>

#include "report/ahead_outlook.hpp"

namespace driftwarden::window_words_test {
namespace {

TEST(WindowText, IsForASheetAndOnlyWhereSomethingIsPlanned) {
  const OutlookBook book;
  const auto text = [&](const VolumeAsked& asked) { return window_text(asked, book.outlook(asked).samples[0].volume); };
  EXPECT_EQ(
      text(asked_for(0.5, 4)),
      "at least 100 min (200 L), at most 250 min (500 L): 0.5 mg/m3 has to be found, 4 mg/m3 of dust is expected");
  EXPECT_EQ(text(asked_for(missing, missing)), "");
}

std::string words(const VolumeAsked& asked) {
  const OutlookBook book;
  return window_words(book.outlook(asked).samples[0].volume);
}

TEST(WindowWords, RoundToMinutesThatLieInside) {
  EXPECT_EQ(words(asked_for(0.3, 7)), "no volume fits: at least 167 min (333.3 L) and at most 142 min (285.7 L)");
  EXPECT_EQ(words(asked_for(0.3, 4)), "at least 167 min (333.3 L), at most 250 min (500 L)");
}

// derived: 1000 x 0.1 / 0.333 = 300.3 L and 1000 x 2 / 6.655 = 300.53 L, at 2 L/min 150.15 min and 150.26 min.
TEST(WindowWords, SayThatNoWholeMinuteFits) {
  EXPECT_EQ(words(asked_for(0.333, 6.655)),
            "no whole minute fits: the least, 300.3 L, 150.15 min, and the most, 300.5 L, 150.26 min, lie within one; "
            "another flow moves them apart");
  EXPECT_EQ(words(asked_for(0.32, 6.34)), "at least 157 min (312.5 L), at most 157 min (315.5 L)") << "one does";
}

TEST(WindowWords, PrintNoMinutesThatAreNoSamplingTime) {
  EXPECT_TRUE(words(asked_for(1e-9, missing)).starts_with("no volume fits: at least over 1000000 min"));
}

}  // namespace
}  // namespace driftwarden::window_words_test

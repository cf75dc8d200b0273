// SPDX-License-Identifier: MIT
#include "report/lookback_words.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "report/looked_back.hpp"

namespace driftwarden::lookback_words_test {
namespace {

// input: a drift just beyond 5 %.

TEST(ToleranceText, IsAsAPersonWouldWriteIt) {
  EXPECT_EQ(tolerance_text({-4, 4, ""}), "±4 %");
  EXPECT_EQ(tolerance_text({-1.5, 4, ""}), "-1.5 to 4 %");
  EXPECT_EQ(tolerance_text({-std::numeric_limits<double>::infinity(), 4, ""}), "up to 4 %");
  EXPECT_EQ(tolerance_text({-2, std::numeric_limits<double>::infinity(), ""}), "from -2 %");
  EXPECT_EQ(tolerance_text({}), "not stated");
}

TEST(AsFoundText, IsNeverRoundedToWithinTheTolerance) {
  LookbackWindow window;
  window.worst.nominal = 2;
  window.tolerance = {-4, 4, ""};
  window.as_found_percent = 4.04;
  EXPECT_EQ(as_found_text(window), "4.04 % at 2 L/min");
  window.as_found_percent = -4.04;
  EXPECT_EQ(as_found_text(window), "-4.04 % at 2 L/min");
  window.as_found_expanded_percent = 1.96;
  EXPECT_EQ(as_found_text(window), "-4.04 % (U 2.0 %) at 2 L/min");
  window.as_found_expanded_percent = missing;
  window.as_found_percent = 3.97;
  EXPECT_EQ(as_found_text(window), "4.0 % at 2 L/min") << "within it there is nothing to hide";
}

TEST(DriftText, IsNeverRoundedToTheOtherSideOfItsLimit) {
  JudgedSample judged;
  judged.drift = 0.0504;
  EXPECT_EQ(drift_text(judged), "5.0");
  judged.drift_limit = 0.05;
  EXPECT_EQ(drift_text(judged), "5.04");
}

TEST(AsLeftText, GivesTheSmallestAndTheLargest) {
  const LookedBack looked;
  const Certificate& good = looked.judged.book().certificates.front();
  EXPECT_EQ(as_left_text(good), "left with errors from 0.0 to 0.0 %");
}

TEST(FindingsOnlyIn, AreThoseTheOtherDoesNotHold) {
  JudgedSample here;
  JudgedSample there;
  here.findings = {{"own/a", Outcome::void_, "a"}, {"own/b", Outcome::void_, "b"}};
  there.findings = {{"own/a", Outcome::qualified, "a"}, {"own/b", Outcome::void_, "another figure"}};
  const auto only = findings_only_in(here, there);
  ASSERT_EQ(only.size(), 1U);
  EXPECT_EQ(only[0]->rule, "own/a");
}

TEST(SamplesWith, AreThoseOfAGroup) {
  const LookedBack looked;
  EXPECT_EQ(samples_with(looked.lookback, Change::figures).size(), 2U);
  EXPECT_TRUE(samples_with(looked.lookback, Change::open_before).empty());
  EXPECT_EQ(change_word(Change::open_before), "open before");
}

TEST(SummaryText, CountsWhatWasUndecidedBeforeApart) {
  EXPECT_EQ(
      summary_text(LookedBack(incomplete_text()).lookback),
      "4 samples leaned on it; the verdict of 0 changes if the error came suddenly, of 0 if it grew linearly; 1 was "
      "undecided before.");
}

TEST(SummaryText, CountsWhatChanges) {
  EXPECT_EQ(summary_text({}), "No sample leaned on it in the window.");
  EXPECT_EQ(summary_text(LookedBack(open_window_text()).lookback),
            "4 samples leaned on it; the verdict of 1 changes if the error came suddenly; linear growth can't be "
            "reckoned.");
}

}  // namespace
}  // namespace driftwarden::lookback_words_test

// SPDX-License-Identifier: MIT
#include "report/review_words.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::review_words_test {
namespace {

ReviewAction of_kind(ActionKind kind, bool is_recent = true, Day by = no_day) {
  return {kind, ActionSubject::instrument, "P1", "Do it.", {{"It moves.", ""}}, 0, is_recent, by};
}

TEST(ReviewWords, SayHowManyThingsBeforeWhen) {
  Review review;
  EXPECT_EQ(how_much(review), "Nothing from these days needs action");
  review.actions = {of_kind(ActionKind::look_back), of_kind(ActionKind::recalibrate),
                    of_kind(ActionKind::adjust_soon, true, day("2026-12-03")),
                    of_kind(ActionKind::recalibrate_soon, true, day("2026-12-10")), of_kind(ActionKind::weigh)};
  EXPECT_EQ(how_much(review),
            "5 things to do: 2 before anything is sampled again, 2 by a day, the first 2026-12-03, 1 without a date");
  review.actions = {of_kind(ActionKind::adjust_soon, true, day("2026-12-03")), of_kind(ActionKind::weigh, false)};
  EXPECT_EQ(how_much(review), "1 thing to do: 1 by 2026-12-03; 1 more is open from before");
}

TEST(ReviewWords, NameTogetherThoseOfWhomTheSameIsToBeDone) {
  ReviewAction action = of_kind(ActionKind::recalibrate);
  const auto part = [](const std::string& what, const std::string& name) {
    return TouchedPart{ActionKind::weigh, what, {{"said of " + name, ""}}, {{ActionSubject::sample, name, 0, true}}};
  };
  action.touched = {part("Weigh.", "S1"), part("Weigh.", "S2"), part("Sample.", "S3")};
  const std::vector<TouchedWith> groups = touched_of(action);
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[0].names, "S1, S2");
  EXPECT_EQ(groups[0].said, "said of S1");
  EXPECT_EQ(groups[1].what, "Sample.");
}

}  // namespace
}  // namespace driftwarden::review_words_test

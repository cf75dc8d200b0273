// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/page_of.hpp"
#include "report/review_parts.hpp"

namespace driftwarden::review_actions_test {
namespace {

TEST(ReviewActionsOnThePage, SayWhatToDoAboutWhomAndWhy) {
  const ReviewedBook book({}, drift_within("2 %"));
  const std::string html = part_of(page_of(book), append_actions);
  EXPECT_TRUE(holds(html, "<span class=\"verb\">Take out of use</span> <a href=\"#i0\"><bdi>P1</bdi></a>")) << html;
  EXPECT_TRUE(holds(html, "Leave the volume out of every result, and take the sample again."));
  EXPECT_TRUE(holds(html,
                    "<b class=\"members\"><a href=\"#s0\"><bdi>S1</bdi></a></b>: <bdi>The flow fell 2.5 %, from 2.000 "
                    "L/min before sampling "
                    "to 1.950 L/min after; the limit is 2 %</bdi> <span "
                    "class=\"rule\"><bdi>own/drift</bdi></span>"));
  EXPECT_LT(html.find("1 thing to do: 1 before anything is sampled again."), html.find("Take out of use"));
}

TEST(ReviewActionsOnThePage, LeadToTheInstrument) {
  const ReviewedBook book({}, drift_within("2 %"));
  EXPECT_TRUE(holds(part_of(page_of(book), append_actions), "<a href=\"#i0\"><bdi>P1</bdi></a>"));
}

TEST(ReviewActionsOnThePage, PutWhatIsOpenFromBeforeInATableOfItsOwn) {
  const ReviewedBook book({}, drift_within("2 %"), "2026-10-24");
  const std::string html = part_of(page_of(book, "2026-10-24"), append_actions);
  EXPECT_TRUE(holds(html, "Nothing from these days needs action; 1 is open from before."));
  EXPECT_TRUE(holds(html, "Open from before these days, and nobody has ruled on it: 1 thing"));
  EXPECT_TRUE(holds(html, "<th scope=\"row\"><a href=\"#i0\"><bdi>P1</bdi></a></th><td>Take out of use</td>"));
}

TEST(ReviewActionsOnThePage, SayWhereThereIsNothingToDo) {
  EXPECT_TRUE(
      holds(part_of(page_of(ReviewedBook(BookText{})), append_actions), "Nothing from these days needs action."));
}

}  // namespace
}  // namespace driftwarden::review_actions_test

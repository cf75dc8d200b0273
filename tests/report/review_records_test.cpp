// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/page_of.hpp"
#include "report/review_parts.hpp"

namespace driftwarden::review_records_test {
namespace {

TEST(ReviewRecordsOnThePage, TellFaultsWithTheirPlace) {
  BookText text;
  text.readings += "2026-09-21T16:12,post,S1,V1,<b>\n";
  const ReviewedBook book(text);
  const std::string html = part_of(page_of(book), append_records);
  EXPECT_TRUE(holds(html, "<span class=\"place\"><bdi>readings.csv:4:29</bdi></span>")) << html;
  EXPECT_TRUE(holds(html, "&#39;&lt;b&gt;&#39; is not a number"));
  EXPECT_TRUE(holds(html, "<h3>Remarks: records that look doubtful</h3><p>None.</p>"));
}

TEST(ReviewRecordsOnThePage, SayWhereEverythingWasUnderstood) {
  EXPECT_TRUE(holds(part_of(page_of(ReviewedBook(BookText{})), append_records), "None: every record was understood."));
}

TEST(NotJudgedOnThePage, NamesUndecidedSamplesAndRulesThatCouldNotBeHeld) {
  const ReviewedBook book({}, {{{Subject::sample, "warm-up", "at_least", {"5 min"}}}});
  const std::string html = part_of(page_of(book), append_unjudged);
  EXPECT_TRUE(holds(html, "Undecided samples: <a href=\"#s0\"><bdi>S1</bdi></a>.")) << html;
  EXPECT_TRUE(holds(html,
                    "<th scope=\"row\"><bdi>own/warm-up</bdi></th><td class=\"figure\">1</td><td "
                    "class=\"figure\">0</td>"));
}

TEST(NotJudgedOnThePage, SaysSoWhereEverythingWasJudged) {
  EXPECT_TRUE(holds(part_of(page_of(ReviewedBook(BookText{})), append_unjudged), "Undecided samples: none."));
}

}  // namespace
}  // namespace driftwarden::review_records_test

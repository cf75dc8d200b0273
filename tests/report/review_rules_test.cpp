// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/page_of.hpp"
#include "report/review_parts.hpp"

namespace driftwarden::review_rules_test {
namespace {

TEST(ReviewRulesOnThePage, HaveTheirEditionLimitSourceAndStanding) {
  const ReviewedBook book({}, drift_within("2 %"));
  const std::string html = part_of(page_of(book), append_rules);
  EXPECT_TRUE(holds(html, "edition <bdi>1</bdi>: 1 rule in force")) << html;
  EXPECT_TRUE(holds(html,
                    "<th scope=\"row\"><bdi>drift</bdi></th><td><bdi>drift within 2 %</bdi></td><td>void</td>"
                    "<td><bdi>A source</bdi></td><td><bdi>house</bdi></td>"));
}

TEST(ReviewRulesOnThePage, TellThePracticesAndWhoChoseThem) {
  RulesText rules = drift_within("2 %");
  rules.practice.push_back(practice("drift_base", "mean"));
  const ReviewedBook book({}, rules);
  EXPECT_TRUE(
      holds(part_of(page_of(book), append_rules),
            "<th scope=\"row\">drift_base</th><td>mean</td><td><bdi>this book</bdi></td><td><bdi>The client asked "
            "for it.</bdi></td>"));
}

TEST(ReviewDecisionsOnThePage, NameWhoRuledWhatAndWhy) {
  BookText text;
  text.decisions = "decided,by,subject,rule,ruling,reason\n2026-09-22T09:00,keeper,S1,own/drift,uphold,<i>Seen.\n";
  const ReviewedBook book(text, drift_within("2 %"));
  const std::string html = part_of(page_of(book), append_decisions);
  EXPECT_TRUE(holds(html,
                    "<a href=\"#s0\"><bdi>S1</bdi></a></th><td>uphold</td><td><bdi>own/drift</bdi></td><td><bdi>"
                    "&lt;i&gt;Seen.</bdi></td><td><bdi>keeper</bdi></td><td>2026-09-22T09:00+00:00 <span "))
      << html;
  EXPECT_TRUE(holds(html, "No rule is overridden by this book."));
}

TEST(ReviewDecisionsOnThePage, SayWhereThereAreNone) {
  EXPECT_TRUE(
      holds(part_of(page_of(ReviewedBook(BookText{})), append_decisions), "No decision has been written down."));
}

}  // namespace
}  // namespace driftwarden::review_rules_test

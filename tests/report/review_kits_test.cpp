// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/kit_book.hpp"
#include "report/page_of.hpp"
#include "report/review_parts.hpp"

namespace driftwarden::review_kits_test {
namespace {

TEST(ReviewKitsOnThePage, AreLeftOutWhereTheBookHasNone) {
  const ReviewedBook book{BookText()};
  EXPECT_EQ(part_of(page_of(book), append_kits), "");
}

TEST(ReviewKitsOnThePage, TellWhatIsOutOverdueMissingAndUnfit) {
  const ReviewedBook book(kit_text(), {}, "2026-10-02");
  const std::string html = part_of(page_of(book, "2026-10-02"), append_kits);
  EXPECT_TRUE(holds(html,
                    "<tr class=\"overdue\"><th scope=\"row\"><bdi>K-2</bdi></th><td><bdi>south crew</bdi></td>"
                    "<td>overdue</td><td data-label=\"out\">2026-09-23</td><td data-label=\"due back\">2026-09-30"
                    "</td><td data-label=\"days over\">2</td><td><bdi>V2</bdi></td></tr>"))
      << html;
  EXPECT_TRUE(holds(html, "<th scope=\"row\"><bdi>K-1</bdi></th><td><bdi></bdi></td><td>missing</td>")) << html;
  EXPECT_TRUE(holds(html,
                    "<tr><th scope=\"row\"><bdi>V1</bdi></th><td><bdi>past due: it was due on 2026-09-22, 10 days "
                    "ago</bdi></td><td><bdi>in the store</bdi></td></tr>"))
      << html;
}

TEST(ReviewKitsOnThePage, SayWhatIsNotKnownOfABookThatKeepsKits) {
  BookText text;
  text.kits = "kind of kit,item\ndust,hose\n";
  const ReviewedBook book(text);
  const std::string html = part_of(page_of(book), append_kits);
  EXPECT_TRUE(holds(html, "The book has no issues.csv: ")) << html;
  EXPECT_FALSE(holds(html, "No kit is out"));
  EXPECT_FALSE(holds(html, "<p>Every instrument"));
}

TEST(ReviewKitsOnThePage, SayWhereAllIsWell) {
  BookText text;
  text.issues = "kit,instrument,out,back\nK-1,P1,2026-09-01,2026-09-02\n";
  const ReviewedBook book(text);
  const std::string html = part_of(page_of(book), append_kits);
  EXPECT_TRUE(holds(html, "No kit is out, and nothing is missing.")) << html;
  EXPECT_TRUE(holds(html, "Every instrument in service is fit to go."));
}

}  // namespace
}  // namespace driftwarden::review_kits_test

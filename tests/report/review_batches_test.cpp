// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/page_of.hpp"
#include "report/review_parts.hpp"

namespace driftwarden::review_batches_test {
namespace {

BookText with_batch() {
  BookText text;
  text.samples =
      "sample,batch,kind,pump,started,stopped\nS1,A<1,sample,P1,2026-09-21T08:00,2026-09-21T16:00\nBL,A<1,blank,,,\n";
  return text;
}

TEST(ReviewBatchesOnThePage, HaveTheWorstVerdictAndItsCounts) {
  const ReviewedBook book(with_batch(), drift_within("2 %"));
  const std::string html = part_of(page_of(book), append_batches);
  EXPECT_TRUE(holds(html,
                    "<th scope=\"row\"><bdi>A&lt;1</bdi></th><td><span class=\"verdict void\">void</span></td>"
                    "<td>2026-09-21</td><td class=\"figure\">1</td><td class=\"figure\">1</td>"
                    "<td class=\"figure\">1</td><td class=\"figure none\">0</td><td class=\"figure none\">0</td>"
                    "<td class=\"figure\">1</td>"))
      << html;
}

TEST(ReviewBatchesOnThePage, FoldUpTheEarlierOnes) {
  const ReviewedBook book(with_batch(), {}, "2026-10-24");
  const std::string html = part_of(page_of(book, "2026-10-24"), append_batches);
  EXPECT_TRUE(holds(html, "No batch falls in these days."));
  EXPECT_TRUE(holds(html, "<details><summary>1 earlier batch</summary>"));
}

}  // namespace
}  // namespace driftwarden::review_batches_test

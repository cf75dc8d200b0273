// SPDX-License-Identifier: MIT
#include "report/review_page.hpp"

#include <gtest/gtest.h>

#include "report/html_text.hpp"
#include "report/page_of.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::review_page_test {
namespace {

TEST(ReviewPage, HasItsPartsInTheirOrder) {
  const ReviewedBook book({}, drift_within("2 %"));
  const std::string html = review_html(page_of(book));
  std::size_t last = 0;
  for (const std::string id : {"action", "batches", "samples", "instruments", "records", "unjudged", "decisions",
                               "rules", "provenance", "signature"}) {
    const std::size_t at = html.find("<section id=\"" + id + "\"");
    ASSERT_NE(at, std::string::npos) << id;
    EXPECT_GT(at, last) << id;
    last = at;
  }
}

TEST(ReviewPage, ShowsTheCautions) {
  const ReviewedBook book(BookText{});
  const std::string html = review_html(page_of(book));
  EXPECT_TRUE(holds(html, html_of(cautions)));
}

TEST(ReviewPage, AllowsItsOwnStyleAndScriptOnly) {
  const ReviewedBook book(BookText{});
  const std::string html = review_html(page_of(book));
  EXPECT_EQ(times(html, "<p>Decision rule: "), 1U);
  EXPECT_TRUE(holds(html, "content=\"default-src &#39;none&#39;; style-src &#39;sha256-"));
  EXPECT_FALSE(holds(html, "unsafe"));
  EXPECT_FALSE(holds(html, " style=\""));
  EXPECT_FALSE(holds(html, "http://"));
  EXPECT_FALSE(holds(html, "https://"));
  EXPECT_EQ(times(html, "<script>"), 1U);
}

TEST(ReviewPage, TakesNoTitleForMarkup) {
  BookText text;
  text.settings = "title = \"</title><script>alert(1)</script>\"\ntime_zone = \"UTC\"\n";
  const ReviewedBook book(text);
  const std::string html = review_html(page_of(book));
  EXPECT_EQ(times(html, "<script>"), 1U);
  EXPECT_EQ(times(html, "</title>"), 1U);
}

TEST(ReviewPage, NamesProgramFilesAndConditions) {
  const ReviewedBook book(BookText{});
  const std::string html = review_html(page_of(book));
  EXPECT_TRUE(holds(html, "<dt>Program</dt><dd><bdi>driftwarden 0.1.0</bdi></dd>"));
  EXPECT_TRUE(holds(html, "25 °C, 101.325 kPa (preset; the book does not say)"));
  EXPECT_TRUE(holds(html, "<bdi>book.toml</bdi></th><td class=\"figure\">40</td><td><code>" + std::string(16, 'a') +
                              "<span class=\"rest\">" + std::string(48, 'a')));
}

TEST(ReviewPage, SetsThePaperOnlyWhereAsked) {
  const ReviewedBook book(BookText{});
  ReviewPage page = page_of(book);
  EXPECT_FALSE(holds(review_html(page), "size:A4"));
  page.paper = "A4";
  EXPECT_TRUE(holds(review_html(page), "@page{size:A4}"));
}

TEST(ReviewPage, HasTheSameBytesAgain) {
  const ReviewedBook book({}, drift_within("2 %"));
  EXPECT_EQ(review_html(page_of(book)), review_html(page_of(book)));
}

}  // namespace
}  // namespace driftwarden::review_page_test

// SPDX-License-Identifier: MIT
#include "report/review_parts.hpp"

#include <gtest/gtest.h>

namespace driftwarden::review_parts_test {
namespace {

TEST(ReviewParts, SayAVerdictInAWord) {
  std::string out;
  HtmlText html(out);
  append_verdict(html, Verdict::void_);
  EXPECT_EQ(out, "<span class=\"verdict void\">void</span>");
}

TEST(ReviewParts, NameASectionByItsHeading) {
  std::string out;
  HtmlText html(out);
  open_section(html, 3, "samples", "Samples");
  html.close();
  EXPECT_EQ(out,
            "<section id=\"samples\" aria-labelledby=\"samples-heading\">\n<h2 id=\"samples-heading\"><span "
            "class=\"number\">3</span> Samples</h2>\n</section>");
}

TEST(ReviewParts, GiveEveryColumnOfATableAScope) {
  std::string out;
  HtmlText html(out);
  open_table(html, "plain", "Things", {"Name", "#Size"});
  close_table(html);
  EXPECT_EQ(out,
            "<table class=\"plain\"><caption>Things</caption><thead><tr><th scope=\"col\" class=\"word\">Name</th><th "
            "scope=\"col\" class=\"figure\">Size</th></tr></thead>\n</table>\n");
}

}  // namespace
}  // namespace driftwarden::review_parts_test

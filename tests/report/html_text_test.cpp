// SPDX-License-Identifier: MIT
#include "report/html_text.hpp"

#include <gtest/gtest.h>

namespace driftwarden::html_text_test {
namespace {

TEST(HtmlText, TakesNothingInATextForMarkup) {
  EXPECT_EQ(html_of("<script>alert(1)</script>"), "&lt;script&gt;alert(1)&lt;/script&gt;");
  EXPECT_EQ(html_of("a & b &amp; c"), "a &amp; b &amp;amp; c");
}

TEST(HtmlText, LetsNoQuoteEndAnAttribute) {
  std::string out;
  HtmlText(out).open("p", {{"title", "\" onclick='x'"}}).close();
  EXPECT_EQ(out, "<p title=\"&quot; onclick=&#39;x&#39;\"></p>");
}

TEST(HtmlText, WritesCharactersThatActByTheirNumbers) {
  EXPECT_EQ(html_of("a\x1b[2J"), "a[U+001B][2J");
  EXPECT_EQ(html_of("\xE2\x80\xAE"
                    "abc"),
            "[U+202E]abc");
  EXPECT_EQ(html_of("\xC2\x85"), "[U+0085]");
  EXPECT_EQ(html_of(std::string_view("a\0b", 3)), "a[U+0000]b");
  EXPECT_EQ(html_of("a\r\nb\tc"), "a[U+000D]\nb\tc");
}

TEST(HtmlText, ReplacesBytesThatAreNoUtf8) {
  EXPECT_EQ(html_of("a\xFF\xE2\x82z"), "a\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBDz");
}

TEST(HtmlText, KeepsLettersOfAnyScript) { EXPECT_EQ(html_of("25 °C — שלום 試料 🔧"), "25 °C — שלום 試料 🔧"); }

TEST(HtmlText, ClosesTheElementOpenedLast) {
  std::string out;
  HtmlText html(out);
  html.open("ul").open("li", {{"class", "a"}}).text("x < y").close().element("li", "z").close();
  EXPECT_EQ(out, "<ul><li class=\"a\">x &lt; y</li><li>z</li></ul>");
}

TEST(HtmlText, SetsTextsOfTheBookApart) {
  std::string out;
  HtmlText(out).element_from_book("td", {}, "<i>").line_end();
  EXPECT_EQ(out, "<td><bdi>&lt;i&gt;</bdi></td>\n");
}

}  // namespace
}  // namespace driftwarden::html_text_test

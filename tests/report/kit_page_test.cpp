// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/html_text.hpp"
#include "report/kit_book.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::kit_page_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(KitPage, HasABoxForEachWayAndALineForWhatNobodyHasWrittenYet) {
  const std::string page = kit_page(*kit_sheet("K-1", "2026-09-23"));
  EXPECT_TRUE(has(page,
                  "<tr><th scope=\"row\"><bdi>pump</bdi></th><td class=\"figure\" data-label=\"number\">1</td>"
                  "<td class=\"name\" data-label=\"instrument\"><bdi>P2</bdi></td>"
                  "<td class=\"name\" data-label=\"serial number\"><bdi>T-8</bdi></td>"
                  "<td class=\"box\" data-label=\"charged\"><span class=\"tick\">yes</span></td>"
                  "<td class=\"box\" data-label=\"out\"><span class=\"tick\"></span></td>"
                  "<td class=\"box\" data-label=\"back\"><span class=\"tick\"></span></td>"))
      << page;
  EXPECT_TRUE(has(page, "<td class=\"name blank\" data-label=\"instrument\"></td>"));
  EXPECT_TRUE(has(page, "<dt>To</dt><dd class=\"\"><bdi>north crew</bdi></dd>"));
  EXPECT_TRUE(has(page, "<dt>Due back</dt><dd class=\"\"><bdi>2026-09-22: overdue by 1 day</bdi></dd>"));
  EXPECT_TRUE(has(page, "<dt>Back on</dt><dd class=\"to-write\"></dd>"));
  EXPECT_TRUE(has(page, "<th scope=\"row\">on the way out</th><td data-label=\"by\"><bdi>store</bdi></td>"));
}

TEST(KitPage, SaysBelowItsRowWhatMustNotGo) {
  const std::string page = kit_page(*kit_sheet("K-1", "2026-09-23"));
  EXPECT_TRUE(has(page,
                  "<tr class=\"below\"><td colspan=\"8\"><b class=\"unfit\">Not fit to go: <bdi>past due: it was due "
                  "on 2026-09-22, 1 day ago</bdi></b></td></tr>"))
      << page;
  EXPECT_TRUE(has(page, "<bdi>Not on the list of this kind of kit</bdi>"));
}

TEST(KitPage, OfAKindAsksForTheNumberOfTheKit) {
  const std::string page = kit_page(*kit_sheet("dust"));
  EXPECT_TRUE(has(page, "<h1>Kit <bdi>dust</bdi></h1>"));
  EXPECT_TRUE(has(page, "<dt>Kit number</dt><dd class=\"to-write\"></dd>"));
}

TEST(KitPage, HasTheCautionsAndThePaper) {
  KitSheet sheet = *kit_sheet("dust");
  EXPECT_TRUE(has(kit_page(sheet), html_of(cautions)));
  EXPECT_FALSE(has(kit_page(sheet), "@page{size:"));
  sheet.paper = "letter";
  EXPECT_TRUE(has(kit_page(sheet), "@page{size:letter}"));
}

TEST(KitPage, EscapesWhatTheBookSays) {
  KitSheet sheet = *kit_sheet("dust");
  sheet.to = "<b>crew</b>";
  EXPECT_TRUE(has(kit_page(sheet), "&lt;b&gt;crew&lt;/b&gt;"));
}

}  // namespace
}  // namespace driftwarden::kit_page_test

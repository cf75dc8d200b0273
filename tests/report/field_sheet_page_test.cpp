// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/field_sheet_book.hpp"
#include "report/html_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::field_sheet_page_test {
namespace {

// How it comes out of a printer: tests/browser/field_sheet_test.sh.

TEST(FieldSheetPage, HasNamesAsTextCodesBoxesAndTheCautions) {
  JudgedBook book(sheet_book(), sheet_rules);
  const std::string page = field_sheets_page(sheets_of(book));
  const auto has = [&page](const std::string& part) { return page.find(part) != std::string::npos; };
  EXPECT_TRUE(has("<strong><bdi>S2</bdi></strong>"));
  EXPECT_TRUE(has("<bdi>&lt;i&gt;S5</bdi>"));
  EXPECT_FALSE(has("<i>S5"));
  EXPECT_TRUE(has("<title>S2</title>"));
  EXPECT_TRUE(has("<title>P1</title>"));
  EXPECT_TRUE(has("let the pump run 15 min first"));
  EXPECT_TRUE(has(html_of(cautions)));
  EXPECT_TRUE(has("<b>1.85</b><span>1.76 to 1.94</span>"));
  EXPECT_TRUE(has("No pump is named yet for <bdi>S6</bdi>"));
  EXPECT_TRUE(has("script-src &#39;none&#39;")) << page.substr(0, 600);
}

}  // namespace
}  // namespace driftwarden::field_sheet_page_test

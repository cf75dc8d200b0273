// SPDX-License-Identifier: MIT
#include "report/label_sheet.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftwarden::label_sheet_test {
namespace {

// input: millimetres of paper (ISO 216: A4 is 210 by 297; 8.5 by 11 inches are 215.9 by 279.4).

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

LabelSheet of(std::size_t labels, std::size_t skip = 0) {
  LabelSheet sheet{"B1", *label_size_named("63.5x38.1"), skip, {}};
  for (std::size_t i = 0; i < labels; ++i) sheet.labels.push_back({"S-" + std::to_string(i), {"batch B1"}});
  return sheet;
}

TEST(LabelSheet, HasSizesThatFitTheirPaperAndDoNotOverlap) {
  for (const LabelSize& size : label_sizes()) {
    const bool is_a4 = size.paper == "A4";
    EXPECT_LE(size.left_mm + (size.columns - 1) * size.across_mm + size.width_mm, (is_a4 ? 210 : 215.9) + 0.01)
        << size.name;
    EXPECT_LE(size.top_mm + (size.rows - 1) * size.down_mm + size.height_mm, (is_a4 ? 297 : 279.4) + 0.01) << size.name;
    EXPECT_GE(size.across_mm, size.width_mm) << size.name;
    EXPECT_GE(size.down_mm, size.height_mm) << size.name;
    // Left and right, and above and below, the same is left over to within 1 mm.
    EXPECT_NEAR(2 * size.left_mm + (size.columns - 1) * size.across_mm + size.width_mm, is_a4 ? 210 : 215.9, 2)
        << size.name;
    EXPECT_NEAR(2 * size.top_mm + (size.rows - 1) * size.down_mm + size.height_mm, is_a4 ? 297 : 279.4, 2) << size.name;
  }
  EXPECT_EQ(label_size_named("1x1"), nullptr);
  EXPECT_EQ(label_size_names().size(), label_sizes().size());
}

TEST(LabelSheet, FillsOneSheetAfterTheOther) {
  const std::string page = label_sheet_page(of(22));
  EXPECT_EQ(times(page, "<div class=\"sheet\">"), 2U);
  EXPECT_EQ(times(page, "<div class=\"label "), 22U);
  EXPECT_EQ(times(page, "<div class=\"label c0 r0\">"), 2U);
  EXPECT_EQ(times(page, "<div class=\"label c2 r6\">"), 1U);
  EXPECT_NE(page.find("@page{size:A4}"), std::string::npos);
}

TEST(LabelSheet, PassesOverLabelsThatAreUsedUp) {
  const std::string page = label_sheet_page(of(3, 20));
  EXPECT_EQ(times(page, "<div class=\"sheet\">"), 2U);
  EXPECT_EQ(times(page, "<div class=\"label c2 r6\">"), 1U);
  EXPECT_EQ(times(page, "<div class=\"label c1 r0\">"), 1U);
}

TEST(LabelSheet, HasNamesAsTextAndAsCodes) {
  LabelSheet sheet = of(0);
  sheet.labels.push_back({"<b>", {"a & b"}});
  const std::string page = label_sheet_page(sheet);
  EXPECT_NE(page.find("<strong><bdi>&lt;b&gt;</bdi></strong><span><bdi>a &amp; b</bdi></span>"), std::string::npos);
  EXPECT_NE(page.find("<title>&lt;b&gt;</title>"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::label_sheet_test

// SPDX-License-Identifier: MIT
#include "report/inline_svg.hpp"

#include <gtest/gtest.h>

namespace driftwarden::inline_svg_test {
namespace {

// As gnuplot writes them, shortened.
std::string chart(const std::string& content) {
  return "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<svg width=\"600\" viewBox=\"0 0 600 300\" "
         "xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\"><title>chart</title>"
         "<g id=\"gnuplot_canvas\"><rect x=\"0\" y=\"0\" width=\"600\" height=\"300\" fill=\"#ffffff\"/>"
         "<defs><path id='gpPt0' stroke-width='0.3' stroke='currentColor' d='M-1,0 h2'/><style>p{}</style></defs>" +
         content + "</g></svg>";
}

std::string picture(const std::string& content) { return inline_svg(chart(content), "Chart of P1")->picture; }

TEST(InlineSvg, KeepsWhatDraws) {
  EXPECT_EQ(picture("<path stroke='rgb(  3,   3,   3)' d='M1,2 L3,4'/>"),
            "<svg role=\"img\" aria-label=\"Chart of P1\" viewBox=\"0 0 600 300\"><g><path d=\"M1,2 "
            "L3,4\" class=\"s3\"></path></g></svg>");
}

TEST(InlineSvg, TurnsNumbersIntoClassesAndLeavesOtherColoursOut) {
  const std::string html = picture("<g stroke='rgb(4,4,4)' fill='rgb(5,5,5)' color='black'><path fill='none'/></g>");
  EXPECT_NE(html.find("<g class=\"s4 f5\"><path fill=\"none\"></path></g>"), std::string::npos) << html;
}

TEST(InlineSvg, HoldsTheMarksApart) {
  EXPECT_EQ(inline_svg(chart(""), "")->symbols,
            "<svg class=\"symbols\" aria-hidden=\"true\" focusable=\"false\"><defs><path id=\"gpPt0\" "
            "stroke-width=\"0.3\" stroke=\"currentColor\" d=\"M-1,0 h2\"></path></defs></svg>\n");
  EXPECT_NE(picture("<use xlink:href='#gpPt0' color='rgb(6,6,6)'/>").find("<use href=\"#gpPt0\" class=\"k6\">"),
            std::string::npos);
}

TEST(InlineSvg, LetsNothingThroughThatActs) {
  const std::string html = picture(
      "<script>alert(1)</script><foreignObject><p/></foreignObject><path onclick='x' style='fill:red' id='chart_1' "
      "d='M0,0'/><use xlink:href='http://example.org/x'/><text>&lt;script&gt; \"x\"</text>");
  EXPECT_EQ(html.find("alert"), std::string::npos) << html;
  EXPECT_EQ(html.find("foreignObject"), std::string::npos);
  EXPECT_EQ(html.find("onclick"), std::string::npos);
  EXPECT_EQ(html.find("style"), std::string::npos);
  EXPECT_EQ(html.find("example.org"), std::string::npos);
  EXPECT_EQ(html.find("chart_1"), std::string::npos);
  EXPECT_NE(html.find("<text>&lt;script&gt; &quot;x&quot;</text>"), std::string::npos);
}

TEST(InlineSvg, LeavesOutMarksWithoutAColour) {
  EXPECT_EQ(picture("<use xlink:href='#gpPt0'/>").find("<use"), std::string::npos);
  EXPECT_EQ(picture("<use xlink:href='#gpPt0' color='black'/>").find("<use"), std::string::npos);
}

TEST(InlineSvg, LeavesOutGroupsWithNothingInThem) {
  EXPECT_EQ(picture("<g><g stroke='black'></g><g><text></text></g></g>"),
            "<svg role=\"img\" aria-label=\"Chart of P1\" viewBox=\"0 0 600 300\"></svg>");
}

TEST(InlineSvg, IsNoneOfATextThatIsNoSvg) {
  EXPECT_FALSE(inline_svg("", ""));
  EXPECT_FALSE(inline_svg("<html></html>", ""));
  EXPECT_FALSE(inline_svg("<svg", ""));
}

}  // namespace
}  // namespace driftwarden::inline_svg_test

// SPDX-License-Identifier: MIT
#include "plot/picture_script.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "plot/shipped_theme.hpp"

namespace driftwarden::picture_script_test {
namespace {

Panel simple_panel() {
  Panel panel;
  panel.x = {20000, 20010};
  panel.y = {0, 10};
  return panel;
}

std::string script_of(const Panel& panel) {
  std::string script;
  append_panel(script, panel, shipped_theme(), {1000, 500});
  return script;
}

TEST(PictureScript, WritesItsFiguresAsData) {
  Panel panel = simple_panel();
  panel.marks.push_back({{20001, 20002}, {3.25, std::numeric_limits<double>::quiet_NaN()}, shipped_theme().point});
  const std::string script = script_of(panel);
  EXPECT_NE(script.find("$d1 << EOD\n20001 3.25\n20002 NaN\nEOD\n"), std::string::npos);
  EXPECT_NE(script.find("plot $d1 using 1:2 with points pointtype 7"), std::string::npos);
}

TEST(PictureScript, DrawsItsAxesWithoutAnythingOnThem) {
  EXPECT_NE(script_of(simple_panel()).find("plot NaN notitle\n"), std::string::npos);
}

TEST(PictureScript, LeavesOutMarksWithoutPoints) {
  Panel panel = simple_panel();
  panel.marks.push_back({{}, {}, shipped_theme().signal});
  EXPECT_EQ(script_of(panel).find("EOD"), std::string::npos);
}

TEST(PictureScript, QuotesWhatOthersWrote) {
  Panel panel = simple_panel();
  panel.title = "P'1\n!touch x";
  EXPECT_NE(script_of(panel).find("'P''1\\x0a!touch x'"), std::string::npos);
}

TEST(PictureScript, BeginsWithItsFormatAndEndsItsFile) {
  for (const auto& [format, terminal] :
       {std::pair<PictureFormat, std::string>{PictureFormat::svg, "set terminal svg size 300,200 "},
        {PictureFormat::png, "set terminal pngcairo size 300,200 "},
        {PictureFormat::pdf, "set terminal pdfcairo size 3.125in,2.0833333333333335in noenhanced fontscale 0.5625"}}) {
    std::string script;
    begin_picture(script, {"p" + std::string(ending_of(format)), "P", "S", "", {300, 200}, format, ""},
                  shipped_theme());
    EXPECT_NE(script.find(terminal), std::string::npos) << script;
    EXPECT_NE(script.find("noenhanced"), std::string::npos);
  }
}

}  // namespace
}  // namespace driftwarden::picture_script_test

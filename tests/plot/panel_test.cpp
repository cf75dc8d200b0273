// SPDX-License-Identifier: MIT
#include "plot/panel.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "plot/shipped_theme.hpp"

namespace driftwarden::panel_test {
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

TEST(Panel, WritesItsFiguresAsData) {
  Panel panel = simple_panel();
  panel.marks.push_back({{20001, 20002}, {3.25, std::numeric_limits<double>::quiet_NaN()}, shipped_theme().point});
  const std::string script = script_of(panel);
  EXPECT_NE(script.find("$d1 << EOD\n20001 3.25\n20002 NaN\nEOD\n"), std::string::npos);
  EXPECT_NE(script.find("plot $d1 using 1:2 with points pointtype 7"), std::string::npos);
}

TEST(Panel, DrawsItsAxesWithoutAnythingOnThem) {
  EXPECT_NE(script_of(simple_panel()).find("plot NaN notitle\n"), std::string::npos);
}

TEST(Panel, LeavesOutMarksWithoutPoints) {
  Panel panel = simple_panel();
  panel.marks.push_back({{}, {}, shipped_theme().signal});
  EXPECT_EQ(script_of(panel).find("EOD"), std::string::npos);
}

TEST(Panel, QuotesWhatOthersWrote) {
  Panel panel = simple_panel();
  panel.title = "P'1\n!touch x";
  EXPECT_NE(script_of(panel).find("'P''1\\x0a!touch x'"), std::string::npos);
}

TEST(Panel, MovesNamesOfLevelsApart) {
  Panel panel = simple_panel();
  panel.levels = {{5, "one", "#000000"}, {5.01, "two", "#000000"}, {50, "outside", "#000000"}};
  const std::string script = script_of(panel);
  EXPECT_NE(script.find("'one' at graph 1, graph 0.5 "), std::string::npos);
  EXPECT_EQ(script.find("'two' at graph 1, graph 0.501"), std::string::npos);
  EXPECT_EQ(script.find("outside"), std::string::npos);
}

TEST(Panel, KeepsNamesOfLevelsBelowItsTop) {
  Panel panel = simple_panel();
  panel.levels = {{9.98, "one", "#000000"}, {9.99, "two", "#000000"}, {10, "three", "#000000"}};
  EXPECT_NE(script_of(panel).find("'three' at graph 1, graph 0.97 "), std::string::npos);
}

TEST(Panel, PutsWordsWhereTheyCoverNothing) {
  Panel panel = simple_panel();
  panel.notes.push_back({20005, 5, "beyond", "#000000"});
  EXPECT_NE(script_of(panel).find("'beyond' at graph 0.48560000000000003, graph 0.5196"), std::string::npos)
      << script_of(panel);
  panel.curves.push_back({{20000, 20010}, {5.2, 5.2}, shipped_theme().limit});
  EXPECT_NE(script_of(panel).find("'beyond' at graph 0.48560000000000003, graph 0.4804"), std::string::npos)
      << script_of(panel);
}

TEST(Panel, LeavesOutWordsThatWouldCoverSomething) {
  Panel panel = simple_panel();
  panel.notes.push_back({20005, 5, "beyond", "#000000", true, false, 2});
  for (double y = 0; y <= 10; y += 0.1) panel.curves.push_back({{20000, 20010}, {y, y}, shipped_theme().limit});
  EXPECT_EQ(script_of(panel).find("beyond"), std::string::npos);
}

TEST(Panel, PutsTheWordsOfALineAboveItWhereThereIsRoom) {
  Panel panel = simple_panel();
  panel.room_above = 14;
  panel.notes.push_back({20005, 0, "repaired", "#000000", true, true});
  const std::string script = script_of(panel);
  const std::size_t at = script.find("'repaired' at graph 0.504, graph 1.0");
  EXPECT_NE(at, std::string::npos) << script;
}

TEST(Key, TakesAsManyLinesAsItNeeds) {
  const Theme theme = shipped_theme();
  const std::vector<PictureKey> key(4, {theme.point, "read with a calibrator"});
  EXPECT_EQ(height_of_key({}, 500, theme), 0);
  EXPECT_EQ(height_of_key(key, 2000, theme), 14);
  EXPECT_EQ(height_of_key(key, 320, theme), 28);
  EXPECT_EQ(height_of_key(key, 10, theme), 56);
}

TEST(Range, HoldsAllFiguresWithRoom) {
  const Panel::Range range = range_around({1, 3, std::numeric_limits<double>::quiet_NaN()});
  EXPECT_NEAR(range.low, 0.86, 1e-12);
  EXPECT_NEAR(range.high, 3.14, 1e-12);
}

TEST(Range, IsNeverOfNoWidth) {
  for (const std::vector<double>& values : {std::vector<double>{}, {2.0}, {0.0, 0.0}, {-4.0}}) {
    const Panel::Range range = range_around(values);
    EXPECT_LT(range.low, range.high);
  }
}

TEST(Picture, BeginsWithItsFormatAndEndsItsFile) {
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

TEST(TicStep, IsRoundAndLetsNoMoreFigures) {
  EXPECT_DOUBLE_EQ(tic_step(10, 5), 2);
  EXPECT_DOUBLE_EQ(tic_step(10.5, 5), 5);
  EXPECT_DOUBLE_EQ(tic_step(0.4, 8), 0.05);
  EXPECT_DOUBLE_EQ(tic_step(9, 1), 10);
}

}  // namespace
}  // namespace driftwarden::panel_test

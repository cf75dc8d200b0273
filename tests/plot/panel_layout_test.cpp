// SPDX-License-Identifier: MIT
#include "plot/panel_layout.hpp"

#include <gtest/gtest.h>

#include "plot/picture_script.hpp"
#include "plot/shipped_theme.hpp"

namespace driftwarden::panel_layout_test {
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

TEST(PanelLayout, MovesNamesOfLevelsApart) {
  Panel panel = simple_panel();
  panel.levels = {{5, "one", "#000000"}, {5.01, "two", "#000000"}, {50, "outside", "#000000"}};
  const std::string script = script_of(panel);
  EXPECT_NE(script.find("'one' at graph 1, graph 0.5 "), std::string::npos);
  EXPECT_EQ(script.find("'two' at graph 1, graph 0.501"), std::string::npos);
  EXPECT_EQ(script.find("outside"), std::string::npos);
}

TEST(PanelLayout, KeepsNamesOfLevelsBelowItsTop) {
  Panel panel = simple_panel();
  panel.levels = {{9.98, "one", "#000000"}, {9.99, "two", "#000000"}, {10, "three", "#000000"}};
  EXPECT_NE(script_of(panel).find("'three' at graph 1, graph 0.97 "), std::string::npos);
}

TEST(PanelLayout, PutsWordsWhereTheyCoverNothing) {
  Panel panel = simple_panel();
  panel.notes.push_back({20005, 5, "beyond", "#000000"});
  EXPECT_NE(script_of(panel).find("'beyond' at graph 0.48560000000000003, graph 0.5196"), std::string::npos)
      << script_of(panel);
  panel.curves.push_back({{20000, 20010}, {5.2, 5.2}, shipped_theme().limit});
  EXPECT_NE(script_of(panel).find("'beyond' at graph 0.48560000000000003, graph 0.4804"), std::string::npos)
      << script_of(panel);
}

TEST(PanelLayout, LeavesOutWordsThatWouldCoverSomething) {
  Panel panel = simple_panel();
  panel.notes.push_back({20005, 5, "beyond", "#000000", true, false, 2});
  for (double y = 0; y <= 10; y += 0.1) panel.curves.push_back({{20000, 20010}, {y, y}, shipped_theme().limit});
  EXPECT_EQ(script_of(panel).find("beyond"), std::string::npos);
}

TEST(PanelLayout, PutsTheWordsOfALineAboveItWhereThereIsRoom) {
  Panel panel = simple_panel();
  panel.room_above = 14;
  panel.notes.push_back({20005, 0, "repaired", "#000000", true, true});
  const std::string script = script_of(panel);
  const std::size_t at = script.find("'repaired' at graph 0.504, graph 1.0");
  EXPECT_NE(at, std::string::npos) << script;
}

TEST(KeyLayout, TakesAsManyLinesAsItNeeds) {
  const Theme theme = shipped_theme();
  const std::vector<PictureKey> key(4, {theme.point, "read with a calibrator"});
  EXPECT_EQ(height_of_key({}, 500, theme), 0);
  EXPECT_EQ(height_of_key(key, 2000, theme), 14);
  EXPECT_EQ(height_of_key(key, 320, theme), 28);
  EXPECT_EQ(height_of_key(key, 10, theme), 56);
}

}  // namespace
}  // namespace driftwarden::panel_layout_test

// SPDX-License-Identifier: MIT
#include "plot/theme.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iterator>
#include <set>

#include "plot/shipped_theme.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::theme_test {
namespace {

std::string light_text() {
  std::ifstream file(std::string(project_folder()) + "/plots/light.toml");
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string fault_of(const std::string& from, const std::string& to) {
  std::string text = light_text();
  text.replace(text.find(from), from.size(), to);
  const auto theme = parse_theme(text, "t.toml");
  return theme ? "" : to_text(theme.faults().front());
}

// printed: WCAG 2.2 (W3C Recommendation, 2023), definitions of relative luminance and of contrast ratio.
double luminance(const std::string& colour) {
  const auto channel = [&](std::size_t at) {
    const double c = std::stoi(colour.substr(at, 2), nullptr, 16) / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

double contrast(const std::string& a, const std::string& b) {
  const double first = luminance(a);
  const double second = luminance(b);
  return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

TEST(Themes, ThatAreShippedCanBeRead) {
  for (const std::string name : {"light", "dark", "print"}) EXPECT_EQ(shipped_theme(name).name, name);
}

// WCAG 2.1: 4.5 for text, 3 for graphics.
TEST(Themes, StandOutFromTheirBackground) {
  for (const std::string name : {"light", "dark", "print"}) {
    const Theme theme = shipped_theme(name);
    for (const std::string& colour : {theme.text, theme.faint, theme.signal.colour, theme.centre.colour,
                                      theme.limit.colour, theme.tolerance.colour}) {
      EXPECT_GE(contrast(colour, theme.background), 4.5) << name << " " << colour;
    }
    for (const std::string& colour : {theme.point.colour, theme.void_.colour, theme.trend.colour}) {
      EXPECT_GE(contrast(colour, theme.background), 3) << name << " " << colour;
    }
  }
}

TEST(Themes, TellMarksAndLevelsApartWithoutColour) {
  for (const std::string name : {"light", "dark", "print"}) {
    const Theme theme = shipped_theme(name);
    const std::set<int> shapes{theme.point.shape, theme.signal.shape, theme.void_.shape};
    EXPECT_EQ(shapes.size(), 3U) << name;
    std::set<int> calibrators;
    for (const MarkStyle& mark : theme.calibrators) {
      calibrators.insert({mark.shape, open(mark).shape});
      EXPECT_EQ(filled(mark), mark) << name;
    }
    EXPECT_EQ(calibrators.size(), 2 * theme.calibrators.size()) << name;
    const std::set<std::string> dashes{theme.centre.dashes, theme.limit.dashes, theme.tolerance.dashes};
    EXPECT_EQ(dashes.size(), 3U) << name;
  }
}

TEST(Theme, RefusesWhatIsNoColour) {
  EXPECT_NE(fault_of("\"#ffffff\"", "\"white\"").find("error: 'white' is no colour"), std::string::npos);
  EXPECT_NE(fault_of("\"#ffffff\"", "\"#FFFFFF\"").find("[theme/colour]"), std::string::npos);
  EXPECT_NE(fault_of("\"#ffffff\"", "\"#fffff'\"").find("[theme/colour]"), std::string::npos);
}

TEST(Theme, RefusesSizesDashesAndPairsThatMeanNothing) {
  EXPECT_NE(fault_of("title   = 13", "title   = 0").find("[theme/size]"), std::string::npos);
  EXPECT_NE(fault_of("\"(8,4)\"", "\"solid' ; !ls\"").find("[theme/dashes]"), std::string::npos);
  EXPECT_NE(fault_of("tile  = [250, 160]", "tile  = [250]").find("[theme/pair]"), std::string::npos);
  EXPECT_NE(fault_of("tile  = [250, 160]", "tile  = [250, -1]").find("[theme/size]"), std::string::npos);
}

TEST(Theme, RefusesWhatIsMissingOrUnknown) {
  EXPECT_NE(fault_of("grid       =", "grids      =").find("[toml/"), std::string::npos);
  EXPECT_NE(fault_of("theme = \"light\"", "").find("[toml/missing-key]"), std::string::npos);
}

TEST(Theme, ThatIsNotThereIsNamed) {
  const auto theme = read_theme("/nowhere", "light");
  ASSERT_FALSE(theme);
  EXPECT_EQ(theme.faults().front().id, "theme/missing");
}

}  // namespace
}  // namespace driftwarden::theme_test

// SPDX-License-Identifier: MIT
#include "plot/mass_pictures.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <regex>
#include <string>
#include <utility>
#include <vector>

#include "plot/shipped_theme.hpp"
#include "support/book_text.hpp"

namespace driftwarden::mass_pictures_test {
namespace {

Pictures drawn(const BookText& text, const Sampler& sampler = cyclone_sampler(), const std::string& theme = "light") {
  JudgedBook book(text, {{}, {sampler}});
  return mass_pictures(book.screening(), book.figures("S1"), shipped_theme(theme), PictureFormat::svg);
}

bool has(const Pictures& pictures, const std::string& part) { return pictures.script.find(part) != std::string::npos; }

TEST(MassPictures, AreTwoOfASample) {
  const Pictures pictures = drawn(cyclone_book("1.9"));
  EXPECT_EQ(pictures.files, (std::vector<std::string>{"S1.penetration.svg", "S1.mass-error.svg"}));
  EXPECT_TRUE(has(pictures, "'S1: what comes through cyclone'"));
  EXPECT_TRUE(has(pictures, "'at the nominal flow, 50 % at 4.00 µm'"));
  EXPECT_TRUE(has(pictures, "'at this flow, 50 % at 4.16 µm'"));
  EXPECT_TRUE(has(pictures, "'respirable convention (ISO 7708, EN 481)'"));
  EXPECT_TRUE(has(pictures, "'by the actual volume'"));
  EXPECT_TRUE(has(pictures, "'by the nominal volume'"));
  EXPECT_TRUE(has(pictures, "the mark: the dust that the book states"));
  EXPECT_TRUE(has(pictures, "shaded within 5 %"));
  EXPECT_TRUE(has(pictures, "no statement on anyone''s safety"));
}

TEST(MassPictures, SayWhoseDustsAreFramedAndWhichExponentIsDrawn) {
  EXPECT_TRUE(has(drawn(cyclone_book("1.9", false)), "the frame: the dusts that are taken, for nobody states one"));
  BookText text = cyclone_book("1.9");
  text.settings.replace(text.settings.find("gsd = 2"), 7, "gsd = [2, 3]");
  EXPECT_TRUE(has(drawn(text), "the frame: the dusts that the book states"));
  const Pictures unknown = drawn(cyclone_book("1.9"), cyclone_sampler({}));
  EXPECT_TRUE(has(unknown, "drawn with 1.15, the farther end of the literature''s, from memory"));
  EXPECT_TRUE(has(unknown, "50 % at 4.10 to 4.24 µm"));
}

TEST(MassPictures, HaveNoConventionWhereTheFractionIsNone) {
  Sampler total = cyclone_sampler();
  total.fraction = "total";
  EXPECT_FALSE(has(drawn(cyclone_book("1.9"), total), "convention"));
}

TEST(MassPictures, AreNoneWithoutACurveOrAFlowThatItCovers) {
  EXPECT_TRUE(drawn(cyclone_book("1.9"), sampler("cyclone", 2.0, 0.75)).files.empty());
  EXPECT_TRUE(drawn(cyclone_book("1.4")).files.empty());
}

TEST(MassPictures, DrawLinesAtTheNominalFlowOnlyWhereThereAreAny) {
  EXPECT_EQ(drawn(cyclone_book("2.0")).files.size(), 2U);
}

// The key stands above the axes, where no curve comes: of a convention that lets much of the coarsest in, too.
TEST(PenetrationPicture, HasItsKeyAboveTheCurves) {
  Sampler inhalable = cyclone_sampler();
  inhalable.fraction = "inhalable";
  const std::string script = drawn(cyclone_book("1.9"), inhalable).script;
  EXPECT_NE(script.find("set label 'inhalable convention (ISO 7708, EN 481)' at screen"), std::string::npos);
  std::size_t lines = 0;
  for (std::size_t at = 0; (at = script.find("set arrow from screen", at)) != std::string::npos; ++at) ++lines;
  EXPECT_EQ(lines, 3U);
  EXPECT_EQ(script.find("set label 'at this flow, 50 % at 4.16 µm' at first"), std::string::npos);
}

// From and to, µm, of the axis of diameters.
std::pair<double, double> diameters(const Sampler& sampler, const std::string& flow = "1.9") {
  const std::string script = drawn(cyclone_book(flow), sampler).script;
  std::smatch range;
  std::regex_search(script, range, std::regex(R"(set xrange \[(-?[\d.]+):(-?[\d.]+)\]\nset yrange \[0:100\])"));
  return {std::pow(10, std::stod(range.str(1))), std::pow(10, std::stod(range.str(2)))};
}

// echo: from a fifth of the least cut to six times the greatest, within 0.01 and 200 µm.
TEST(PenetrationPicture, IsOfTheSizesThatAreInTheAir) {
  const auto expect = [](const std::pair<double, double>& is, double from, double to) {
    EXPECT_NEAR(is.first / from, 1, 1e-3);
    EXPECT_NEAR(is.second / to, 1, 1e-3);
  };
  expect(diameters(cyclone_sampler()), 4.0 / 5, 6 * 4.15688);
  Sampler odd = cyclone_sampler();
  odd.cut_um = 0.001;
  expect(diameters(odd), 0.01, 1);
  odd.cut_um = 5000;
  expect(diameters(odd), 20, 200);
  expect(diameters(cyclone_sampler(40), "1.6"), 4.0 / 5, 200);
  expect(diameters(cyclone_sampler(-40), "1.6"), 0.01, 24);
}

struct Label {
  std::string text;
  double x, y;
};

// The figures of the level lines of a map: those at its right edge from below, then those above it from the left.
std::vector<Label> labels(const std::string& map) {
  std::vector<Label> found;
  const std::regex label(R"(set label '([+−]*[\d.]+ %)' at graph ([\d.]+), graph ([\d.]+))");
  for (std::sregex_iterator at(map.begin(), map.end(), label), end; at != end; ++at)
    found.push_back({at->str(1), std::stod(at->str(2)), std::stod(at->str(3))});
  return found;
}

void expect_labels(const std::vector<Label>& found, const std::vector<std::string>& texts) {
  std::vector<std::string> are;
  for (const Label& label : found) are.push_back(label.text);
  EXPECT_EQ(are, texts);
}

// own input: where the lines end, as shares of the map's sides: +5 % at the top at 0.857524 and +10 % at the right at
// 0.541471 by the actual volume, 0 % at 0.888957 and +5 % at 0.506454 by the nominal one, computed with SciPy 1.10 by
// tests/support/computed_aerosols.py. A label stands 4 pixels beside its line, of which 240 points are drawn.
TEST(MassErrorMap, NamesEachLineWhereItEnds) {
  const std::string script = drawn(cyclone_book("1.9")).script;
  const std::size_t first = script.find("'by the actual volume'");
  const std::size_t second = script.find("'by the nominal volume'");
  ASSERT_TRUE(first < second && second != std::string::npos);
  // The words of a map are written after its labels.
  const std::size_t begin = script.rfind("set xrange", first);
  const std::vector<Label> actual = labels(script.substr(begin, first - begin));
  const std::vector<Label> nominal = labels(script.substr(first, second - first));
  expect_labels(actual, {"+35 %", "+30 %", "+25 %", "+20 %", "+15 %", "+10 %", "+5 %"});
  expect_labels(nominal, {"+25 %", "+20 %", "+15 %", "+10 %", "+5 %", "0 %"});
  constexpr double drawn_to = 1.0 / 239;
  EXPECT_NEAR(actual.back().x, 0.857524 + 4.0 / 400, 1e-4);
  EXPECT_NEAR(actual[5].y, 0.541471, drawn_to);
  EXPECT_NEAR(nominal.back().x, 0.888957 + 4.0 / 390, 1e-4);
  EXPECT_NEAR(nominal[4].y, 0.506454, drawn_to);
  EXPECT_EQ(nominal[4].x, 1);
}

}  // namespace
}  // namespace driftwarden::mass_pictures_test

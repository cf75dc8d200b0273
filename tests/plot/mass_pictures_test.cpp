// SPDX-License-Identifier: MIT
#include "plot/mass_pictures.hpp"

#include <gtest/gtest.h>

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
  EXPECT_TRUE(has(pictures, "'with the actual volume'"));
  EXPECT_TRUE(has(pictures, "'with the nominal volume'"));
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
  EXPECT_TRUE(has(unknown, "drawn with 1.15, the farther end of the literature"));
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

}  // namespace
}  // namespace driftwarden::mass_pictures_test

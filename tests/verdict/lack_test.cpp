// SPDX-License-Identifier: MIT
#include "verdict/lack.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"
#include "verdict/cyclone_message.hpp"
#include "verdict/message.hpp"

namespace driftwarden::lack_test {
namespace {

TEST(Lack, SaysWhyNobodyKnowsWhatAFlowDidToTheMass) {
  const std::string unknown = "What this flow does to the concentration by the actual volume can't be told: ";
  EXPECT_EQ(of_cyclone(cyclone_book("1.9"), "mass.shift.actual", sampler("cyclone", 2.0, 0.75)),
            unknown + "the penetration curve of the sampler is not described");
  EXPECT_EQ(of_cyclone(cyclone_book("1.9"), "mass.shift.actual", cyclone_sampler({})),
            unknown + "how the cut of the sampler goes with the flow is not stated");
  EXPECT_EQ(of_cyclone(cyclone_book("1.4"), "mass.shift.actual"),
            unknown + "the flow lies outside those that the law of the sampler's cut was found over");
  EXPECT_EQ(
      of_cyclone(with_own_nominal(cyclone_book("1.9"), "3"), "mass.shift.actual"),
      unknown + "the nominal flow of the sample lies outside those that the law of the sampler's cut was found over");
  EXPECT_EQ(of_cyclone(with_own_nominal(cyclone_book("1.9"), "1.9"), "mass.shift.actual", cyclone_sampler({})),
            unknown + "how the cut of the sampler goes with the flow is not stated");
  BookText coarse = cyclone_book("1.9");
  coarse.settings.replace(coarse.settings.find("\"5 µm\""), 7, R"(["5 µm", "200 µm"])");
  coarse.settings.replace(coarse.settings.find("gsd = 2"), 7, "gsd = 1");
  Sampler sharp = cyclone_sampler();
  sharp.cut_spread = 1.1;
  EXPECT_EQ(of_cyclone(coarse, "mass.shift.actual", sharp),
            unknown + "so little of the coarsest dust comes through the sampler that no ratio can be formed of it");
  Sampler total = cyclone_sampler();
  total.fraction = "total";
  EXPECT_EQ(
      of_cyclone(cyclone_book("1.9"), "mass.bias", total),
      "How far the concentration lies from that of the convention can't be told: the fraction of the sampler is none "
      "of a convention");
}

// Of an exponent alone a change of the cut follows, and it lacks nothing of the curve.
TEST(Lack, SaysWhyNobodyKnowsHowAFlowMovedTheCut) {
  const std::string unknown = "How the flow moved the sampler's cut size is not known: ";
  EXPECT_EQ(of_cyclone(cyclone_book("1.9"), "cut.shift", sampler("cyclone", 2.0)),
            unknown + "how the cut of the sampler goes with the flow is not stated");
  EXPECT_EQ(of_cyclone(cyclone_book("1.4"), "cut.shift"),
            unknown + "the flow lies outside those that the law of the sampler's cut was found over");
  EXPECT_EQ(
      of_cyclone(with_own_nominal(cyclone_book("1.9"), "3"), "cut.shift"),
      unknown + "the nominal flow of the sample lies outside those that the law of the sampler's cut was found over");
  EXPECT_EQ(of_cyclone(cyclone_book("1.9"), "cut.shift", sampler("cyclone", {}, 0.75)),
            unknown + "the book does not say");
  EXPECT_EQ(of_cyclone(cyclone_book("1.9"), "cut.size", sampler("cyclone", 2.0, 0.75)),
            "The 50 % cut size of the sampler at this flow is not known: the penetration curve of the sampler is not "
            "described");
}

}  // namespace
}  // namespace driftwarden::lack_test

// SPDX-License-Identifier: MIT
#include "rule/sampler.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "aerosol/slip.hpp"
#include "rule/pack_text.hpp"

namespace driftwarden::sampler_test {
namespace {

Sampler sampler(const std::string& file, double nominal_l_min) {
  Sampler made;
  made.name = "s";
  made.nominal_l_min = nominal_l_min;
  made.place = {file, 4, 1};
  return made;
}

TEST(Samplers, OfTwoPacksMayBeTheSame) {
  Sampler titled = sampler("b.toml", 2);
  titled.title = "another title";
  const auto all = combine_samplers(std::vector{sampler("a.toml", 2), titled}, {});
  ASSERT_TRUE(all);
  EXPECT_EQ(all->at("s").place.file, "a.toml");
}

TEST(Samplers, OfTwoPacksThatDifferAreAnErrorNamingBothPlaces) {
  EXPECT_EQ(lines_of(combine_samplers(std::vector{sampler("a.toml", 2), sampler("b.toml", 2.2)}, {}).faults()),
            "b.toml:4:1: error: sampler 's' is not the one at a.toml:4:1; describe it in book.toml, which wins "
            "[sampler/disagreement]\n");
  Sampler other_cut = sampler("b.toml", 2);
  other_cut.cut_exponent = 0.5;
  EXPECT_FALSE(combine_samplers(std::vector{sampler("a.toml", 2), other_cut}, {}));
  Sampler other_curve = sampler("b.toml", 2);
  other_curve.cut_um = 4;
  EXPECT_FALSE(combine_samplers(std::vector{sampler("a.toml", 2), other_curve}, {}));
  Sampler other_flows = sampler("b.toml", 2);
  other_flows.cut_flows_l_min = {1.5, 2.5};
  EXPECT_FALSE(combine_samplers(std::vector{sampler("a.toml", 2), other_flows}, {}));
  EXPECT_TRUE(combine_samplers(std::vector{other_flows, other_flows}, {}));
  Sampler other_fraction = sampler("b.toml", 2);
  other_fraction.fraction = "thoracic";
  EXPECT_FALSE(combine_samplers(std::vector{sampler("a.toml", 2), other_fraction}, {}));
}

// echo: the exponents of theory, and the mean free path of slip.
TEST(CutLawOf, IsThatOfTheoryOrOfItsOwnExponent) {
  Sampler own = sampler("a.toml", 2);
  own.cut_um = 4;
  own.cut_flows_l_min = {1.5, 2.5};
  own.cut_exponent = 0.8;
  const CutLaw power = cut_law_of(own);
  EXPECT_EQ(power.nominal_um, 4);
  EXPECT_EQ(power.nominal_l_min, 2);
  EXPECT_EQ(power.exponent, 0.8);
  EXPECT_EQ(power.mean_free_path_um, 0);
  EXPECT_EQ(power.flows_l_min.upper, 2.5);
  own.cut_exponent = {};
  own.cut_kind = CutKind::cyclone;
  EXPECT_TRUE(std::isnan(cut_law_of(own).exponent));
  own.cut_kind = CutKind::impactor;
  EXPECT_EQ(cut_law_of(own).exponent, impactor_exponent);
  EXPECT_EQ(cut_law_of(own).mean_free_path_um, mean_free_path_of_air_um);
  own.cut_kind = CutKind::elutriator;
  EXPECT_EQ(cut_law_of(own).exponent, elutriator_exponent);
  EXPECT_GT(cut_law_of(own).mean_free_path_um, 0);
}

TEST(Samplers, OfTheBookWin) {
  const auto all = combine_samplers(std::vector{sampler("a.toml", 2), sampler("b.toml", 2.2)},
                                    std::vector{sampler("book.toml", 1.9)});
  ASSERT_TRUE(all);
  EXPECT_EQ(all->at("s").nominal_l_min, 1.9);
}

}  // namespace
}  // namespace driftwarden::sampler_test

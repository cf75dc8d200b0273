// SPDX-License-Identifier: MIT
#include "rule/sampler.hpp"

#include <gtest/gtest.h>

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
  Sampler other_fraction = sampler("b.toml", 2);
  other_fraction.fraction = "thoracic";
  EXPECT_FALSE(combine_samplers(std::vector{sampler("a.toml", 2), other_fraction}, {}));
}

TEST(Samplers, OfTheBookWin) {
  const auto all = combine_samplers(std::vector{sampler("a.toml", 2), sampler("b.toml", 2.2)},
                                    std::vector{sampler("book.toml", 1.9)});
  ASSERT_TRUE(all);
  EXPECT_EQ(all->at("s").nominal_l_min, 1.9);
}

}  // namespace
}  // namespace driftwarden::sampler_test

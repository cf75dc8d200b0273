// SPDX-License-Identifier: MIT
#include "rule/practice.hpp"

#include <gtest/gtest.h>

#include <array>

#include "rule/pack_text.hpp"
#include "support/practice_choice.hpp"

namespace driftwarden::practice_test {
namespace {

const PracticeChoice mean_of_a = practice("flow_for_volume", "mean", "A", "a", {"a.toml", 5, 1});
const PracticeChoice nominal_of_b = practice("flow_for_volume", "nominal", "B", "b", {"b.toml", 9, 1});
const PracticeChoice lower_of_book = practice("flow_for_volume", "lower", "because");

TEST(Practice, IsPresetWhereNobodyChooses) {
  const auto chosen = choose_practice({}, {});
  ASSERT_TRUE(chosen);
  for (const PracticeKey& key : practice_keys())
    EXPECT_EQ(chosen->contains(std::string(key.key)), !key.is_of_results) << key.key;
  EXPECT_EQ(chosen->at("flow_for_volume").word(), "mean");
  EXPECT_EQ(chosen->at("drift_base").word(), "pre");
  EXPECT_EQ(chosen->at("rotameter_correction").word(), "always");
  EXPECT_EQ(chosen->at("bubble_humidity").word(), "none");
  EXPECT_EQ(chosen->at("drift_base").place, Place{});
}

// Each value of each key acts, and on its own practice alone.
TEST(Practice, ActsByEachOfItsValues) {
  const auto acts_on = [](const AssessmentPractice& p) {
    return std::array<std::size_t, 8>{static_cast<std::size_t>(p.flow_for_volume),
                                      static_cast<std::size_t>(p.field_sets),
                                      static_cast<std::size_t>(p.drift_base),
                                      static_cast<std::size_t>(p.correction.rotameter),
                                      static_cast<std::size_t>(p.correction.bubble_humidity),
                                      static_cast<std::size_t>(p.blank_correction),
                                      static_cast<std::size_t>(p.control_correction),
                                      static_cast<std::size_t>(p.concentration_volume)};
  };
  const std::span<const PracticeKey> keys = practice_keys();
  ASSERT_EQ(keys.size(), 8U);
  for (std::size_t k = 0; k < keys.size(); ++k) {
    for (std::size_t value = 0; value < keys[k].values.size(); ++value) {
      std::array<std::size_t, 8> expected{};
      expected[k] = value;
      EXPECT_EQ(acts_on(practice_of({{std::string(keys[k].key), {&keys[k], value, "", "", {}}}})), expected)
          << keys[k].key << " " << value;
    }
  }
}

TEST(Practice, IsThatOfThePacksWhereTheyAgree) {
  PracticeChoice nominal_of_c = nominal_of_b;
  nominal_of_c.pack = "c";
  const auto chosen = choose_practice(std::vector{nominal_of_b, nominal_of_c}, {});
  ASSERT_TRUE(chosen);
  EXPECT_EQ(chosen->at("flow_for_volume").word(), "nominal");
  EXPECT_EQ(chosen->at("flow_for_volume").pack, "b");
}

TEST(Practice, OfTwoPacksThatDisagreeIsAnErrorNamingBothPlaces) {
  EXPECT_EQ(
      lines_of(choose_practice(std::vector{mean_of_a, nominal_of_b}, {}).faults()),
      "b.toml:9:1: error: 'flow_for_volume' is 'nominal' here, but 'mean' at a.toml:5:1; choose one in [practice] "
      "of book.toml [practice/disagreement]\n");
}

TEST(Practice, OfTheBookWinsAndSettlesADisagreement) {
  const auto chosen = choose_practice(std::vector{mean_of_a, nominal_of_b}, std::vector{lower_of_book});
  ASSERT_TRUE(chosen);
  EXPECT_EQ(chosen->at("flow_for_volume").word(), "lower");
  EXPECT_EQ(chosen->at("flow_for_volume").source_or_reason, "because");
}

TEST(Practice, OfALineThroughFieldSetsGoesWithTheMeanFlowOnly) {
  const PracticeChoice line = practice("field_sets", "line", "because", "", {"book.toml", 4, 1});
  EXPECT_TRUE(choose_practice({}, std::vector{line}));
  EXPECT_TRUE(choose_practice(std::vector{mean_of_a}, std::vector{line}));
  EXPECT_EQ(lines_of(choose_practice(std::vector{nominal_of_b}, std::vector{line}).faults()),
            "book.toml:4:1: error: 'field_sets' is 'line', but 'flow_for_volume' is 'nominal' at b.toml:9:1; write "
            "field_sets = \"ends\", or flow_for_volume = \"mean\", in [practice] of book.toml "
            "[practice/line-without-mean]\n");
}

}  // namespace
}  // namespace driftwarden::practice_test

// SPDX-License-Identifier: MIT
#include "driftwarden/rule/practice.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "rule/pack_text.hpp"

namespace driftwarden::practice_test {
namespace {

const PracticeChoice mean_of_a = {"flow_for_volume", "mean", "A", "a", {"a.toml", 5, 1}};
const PracticeChoice nominal_of_b = {"flow_for_volume", "nominal", "B", "b", {"b.toml", 9, 1}};
const PracticeChoice lower_of_book = {"flow_for_volume", "lower", "because", "", {"book.toml", 3, 1}};

TEST(Practice, IsPresetWhereNobodyChooses) {
  const auto chosen = choose_practice({}, {});
  ASSERT_TRUE(chosen);
  EXPECT_EQ(chosen->size(), practice_keys().size());
  EXPECT_EQ(chosen->at("flow_for_volume").value, "mean");
  EXPECT_EQ(chosen->at("drift_base").value, "pre");
  EXPECT_EQ(chosen->at("rotameter_correction").value, "always");
  EXPECT_EQ(chosen->at("bubble_humidity").value, "none");
  EXPECT_EQ(chosen->at("drift_base").place, Place{});
}

TEST(Practice, IsPresetToOneOfItsValues) {
  for (const PracticeKey& key : practice_keys()) {
    EXPECT_NE(std::find(key.values.begin(), key.values.end(), key.preset), key.values.end()) << key.key;
    EXPECT_FALSE(key.meaning.empty());
  }
}

TEST(Practice, IsThatOfThePacksWhereTheyAgree) {
  PracticeChoice nominal_of_c = nominal_of_b;
  nominal_of_c.pack = "c";
  const auto chosen = choose_practice(std::vector{nominal_of_b, nominal_of_c}, {});
  ASSERT_TRUE(chosen);
  EXPECT_EQ(chosen->at("flow_for_volume").value, "nominal");
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
  EXPECT_EQ(chosen->at("flow_for_volume").value, "lower");
  EXPECT_EQ(chosen->at("flow_for_volume").source_or_reason, "because");
}

TEST(Practice, OfALineThroughFieldSetsGoesWithTheMeanFlowOnly) {
  const PracticeChoice line = {"field_sets", "line", "because", "", {"book.toml", 4, 1}};
  EXPECT_TRUE(choose_practice({}, std::vector{line}));
  EXPECT_TRUE(choose_practice(std::vector{mean_of_a}, std::vector{line}));
  EXPECT_EQ(lines_of(choose_practice(std::vector{nominal_of_b}, std::vector{line}).faults()),
            "book.toml:4:1: error: 'field_sets' is 'line', but 'flow_for_volume' is 'nominal' at b.toml:9:1; write "
            "field_sets = \"ends\", or flow_for_volume = \"mean\", in [practice] of book.toml "
            "[practice/line-without-mean]\n");
}

}  // namespace
}  // namespace driftwarden::practice_test

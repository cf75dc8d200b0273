// SPDX-License-Identifier: MIT
#include "rule/house_rules.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::house_rules_test {
namespace {

constexpr std::string_view book = R"(title = "An orchard that doesn't exist"
time_zone = "UTC"
[rules]
packs = ["common-practice"]
[[override]]
rule = "common-practice/drift"
within = "10 %"
otherwise = "qualify"
reason = "agreed with the client"
[[override]]
rule = "common-practice/count"
enabled = false
reason = "one reading a day"
[practice]
flow_for_volume = "mean"
reason = "as before"
[sampler.our-impactor]
nominal = "2.0 L/min"
)";

std::string faults_of(std::string_view text) { return lines_of(parse_house_rules(text, "book.toml").faults()); }

TEST(HouseRules, AreReadFromABookThatHoldsMore) {
  const Result<HouseRules> house = parse_house_rules(book, "book.toml");
  ASSERT_TRUE(house) << lines_of(house.faults());
  ASSERT_EQ(house->overrides.size(), 2U);
  const Override& drift = house->overrides[0];
  EXPECT_EQ(drift.rule, "common-practice/drift");
  ASSERT_TRUE(drift.limit);
  EXPECT_EQ(drift.limit->values[0].text, "10 %");
  EXPECT_EQ(drift.otherwise, Otherwise::qualify);
  EXPECT_FALSE(drift.enabled);
  EXPECT_EQ(drift.reason, "agreed with the client");
  EXPECT_EQ(to_text(drift.place), "book.toml:5:1");
  EXPECT_EQ(house->overrides[1].enabled, false);
  EXPECT_FALSE(house->overrides[1].limit);
  ASSERT_EQ(house->practice.size(), 1U);
  EXPECT_EQ(house->practice[0].source_or_reason, "as before");
  EXPECT_EQ(house->practice[0].pack, "");
  ASSERT_EQ(house->samplers.size(), 1U);
  EXPECT_EQ(house->samplers[0].nominal_l_min, 2.0);
}

TEST(HouseRules, MayBeNone) {
  const Result<HouseRules> house = parse_house_rules("title = \"T\"\n", "book.toml");
  ASSERT_TRUE(house);
  EXPECT_TRUE(house->overrides.empty() && house->practice.empty() && house->samplers.empty());
}

TEST(HouseRules, WantTheReasonOfEachChange) {
  EXPECT_EQ(faults_of("[[override]]\nrule = \"p/r\"\nenabled = false\n[practice]\ndrift_base = \"post\"\n"),
            "book.toml:1:1: error: the override of 'p/r' has no 'reason'; say why this book departs from the rule "
            "[toml/missing-key]\n"
            "book.toml:4:1: error: [practice] has no 'reason' [toml/missing-key]\n");
}

TEST(HouseRules, RefuseWhatTheyDoNotKnow) {
  EXPECT_EQ(faults_of("[[override]]\nreason = \"R\"\nlimit = \"5 %\"\n"),
            "book.toml:1:1: error: an override has no 'rule'; write its full name, as in 'common-practice/drift' "
            "[toml/missing-key]\n"
            "book.toml:3:1: error: 'limit' is no key of an override [toml/unknown-key]\n");
  EXPECT_EQ(faults_of("override = 1\n"),
            "book.toml:1:12: error: 'override' of book.toml is a number; write it as [[override]] [toml/wrong-type]\n");
  EXPECT_EQ(faults_of("[\n").find("book.toml:1:"), 0U);
}

}  // namespace
}  // namespace driftwarden::house_rules_test

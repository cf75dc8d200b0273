// SPDX-License-Identifier: MIT
#include "rule/rule_set.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::rule_set_test {
namespace {

Pack named_pack(const std::string& name, const std::string& more = "") {
  PackText text;
  text.heading("pack = \"" + name + "\"\ntitle = \"T\"\nedition = \"1\"\n" + more);
  EXPECT_EQ(text.faults(), "");
  return pack_of(text.text(), name + ".toml");
}

HouseRules house_rules(const std::string& text) {
  const Result<HouseRules> house = parse_house_rules(text, "book.toml");
  EXPECT_TRUE(house) << lines_of(house.faults());
  return house ? *house : HouseRules{};
}

TEST(RuleSet, HoldsTheRulesInForceInTheOrderOfThePacks) {
  const auto set = combine({named_pack("b"), named_pack("a")}, HouseRules{});
  ASSERT_TRUE(set);
  ASSERT_EQ(set->rules.size(), 2U);
  EXPECT_EQ(set->rules[0].full_name(), "b/r");
  EXPECT_EQ(set->rules[1].full_name(), "a/r");
  EXPECT_TRUE(set->disabled.empty());
  EXPECT_TRUE(set->remarks.empty());
  EXPECT_EQ(set->packs.size(), 2U);
  EXPECT_EQ(set->practice.size(), 5U);  // those of results only where somebody chooses
}

TEST(RuleSet, KeepsSwitchedOffRulesApart) {
  const auto set = combine({named_pack("a"), named_pack("b")},
                           house_rules("[[override]]\nrule = \"a/r\"\nenabled = false\nreason = \"R\"\n"));
  ASSERT_TRUE(set);
  ASSERT_EQ(set->rules.size(), 1U);
  EXPECT_EQ(set->rules[0].full_name(), "b/r");
  ASSERT_EQ(set->disabled.size(), 1U);
  EXPECT_EQ(set->disabled[0].full_name(), "a/r");
}

std::string names_of(const std::vector<Rule>& rules) {
  std::string names;
  for (const Rule& rule : rules) names += rule.full_name() + " ";
  return names;
}

Pack pack_by_method(const std::string& more = "") {
  return pack_of(PackText()
                     .heading("pack = \"p\"\ntitle = \"T\"\nedition = \"1\"\n" + more)
                     .with("where", "{ method = \"M\", sampler = \"s\" }")
                     .text());
}

TEST(RuleSet, AsksForKnownWordsWhereARuleLeansOnThem) {
  const auto set = combine({pack_by_method()}, HouseRules{});
  ASSERT_TRUE(set);
  EXPECT_EQ(names_of(set->rules), "p/r book/unknown-sampler book/unknown-method ");
  EXPECT_EQ(names_of(set->disabled), "");
}

TEST(RuleSet, LetsTheOwnerChangeWhatTheProgramAsks) {
  const auto set =
      combine({pack_by_method()},
              house_rules("[[override]]\nrule = \"book/unknown-method\"\notherwise = \"void\"\nreason = \"R\"\n"
                          "[[override]]\nrule = \"book/unknown-sampler\"\nenabled = false\nreason = \"R\"\n"));
  ASSERT_TRUE(set);
  EXPECT_EQ(names_of(set->rules), "p/r book/unknown-method ");
  EXPECT_EQ(set->rules[1].otherwise, Otherwise::void_);
  EXPECT_EQ(names_of(set->disabled), "book/unknown-sampler ");
}

TEST(RuleSet, KnowsTheWordsOfPacksOfTheBookAndOfRules) {
  const auto set = combine({pack_by_method("[sampler.t]\n[method.N]\ntitle = \"T\"\n")},
                           house_rules("[sampler.\"u v\"]\n[analysis.A]\ntitle = \"T\"\n"));
  ASSERT_TRUE(set);
  EXPECT_EQ(set->known_words[0], (std::set<std::string>{"s", "t", "u v"}));
  EXPECT_EQ(set->known_words[1], (std::set<std::string>{"M", "N"}));
  EXPECT_EQ(set->known_words[2], (std::set<std::string>{"A"}));
}

TEST(RuleSet, KeepsTheProgramsOwnNameForItself) {
  EXPECT_EQ(lines_of(combine({named_pack("book")}, HouseRules{}).faults()),
            "book.toml: error: there is a pack 'book' already; it is in 'the program itself' [pack/twice]\n");
}

TEST(RuleSet, AppliesOverridesAndLeavesThePacksAsTheyWereRead) {
  const auto set =
      combine({named_pack("a")}, house_rules("[[override]]\nrule = \"a/r\"\nwithin = \"10 %\"\nreason = \"R\"\n"));
  ASSERT_TRUE(set);
  EXPECT_EQ(set->rules[0].limit.text, "within 10 %");
  EXPECT_EQ(set->packs[0].rules[0].limit.text, "within 5 %");
}

TEST(RuleSet, OfPacksThatDisagreeIsAnError) {
  const Pack mean = named_pack("a", "[practice]\nflow_for_volume = \"mean\"\nsource = \"S\"\n");
  const Pack nominal = named_pack("b", "[practice]\nflow_for_volume = \"nominal\"\nsource = \"S\"\n");
  EXPECT_EQ(
      lines_of(combine({mean, nominal}, HouseRules{}).faults()),
      "b.toml:5:1: error: 'flow_for_volume' is 'nominal' here, but 'mean' at a.toml:5:1; choose one in [practice] "
      "of book.toml [practice/disagreement]\n");
  const auto settled =
      combine({mean, nominal}, house_rules("[practice]\nflow_for_volume = \"nominal\"\nreason = \"R\"\n"));
  ASSERT_TRUE(settled);
  EXPECT_EQ(settled->practice.at("flow_for_volume").word(), "nominal");
  EXPECT_EQ(settled->practice.at("flow_for_volume").pack, "");
}

TEST(RuleSet, ReportsAllThatDoesNotGoTogetherAtOnce) {
  const std::string sampler = "[sampler.s]\nnominal = ";
  const auto set = combine({named_pack("a", sampler + "\"2 L/min\"\n"), named_pack("b", sampler + "\"1.7 L/min\"\n")},
                           house_rules("[[override]]\nrule = \"a/q\"\nenabled = false\nreason = \"R\"\n"));
  EXPECT_EQ(lines_of(set.faults()),
            "book.toml:1:1: error: no pack of the book has a rule 'a/q'; did you mean 'a/r'? [override/unknown-rule]\n"
            "b.toml:4:10: error: sampler 's' is not the one at a.toml:4:10; describe it in book.toml, which wins "
            "[sampler/disagreement]\n");
}

TEST(RuleSet, TakesAPackOnce) {
  Pack again = named_pack("a");
  again.file = "again.toml";
  EXPECT_EQ(lines_of(combine({named_pack("a"), again}, HouseRules{}).faults()),
            "again.toml: error: there is a pack 'a' already; it is in 'a.toml' [pack/twice]\n");
}

TEST(RuleSet, RemarksOnASamplerThatNobodyDescribes) {
  PackText text;
  text.with("where", "{ sampler = [\"s\", \"t\"] }");
  const auto set = combine({pack_of(text.text())}, house_rules("[sampler.s]\nnominal = \"2 L/min\"\n"));
  ASSERT_TRUE(set);
  EXPECT_EQ(lines_of(set->remarks),
            "p.toml:4:1: remark: rule 'p/r' is for sampler 't', which neither a pack nor the book describes; known "
            "are s [rule/unknown-sampler]\n");
}

}  // namespace
}  // namespace driftwarden::rule_set_test

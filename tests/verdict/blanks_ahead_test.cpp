// SPDX-License-Identifier: MIT
#include "verdict/blanks_ahead.hpp"

#include <gtest/gtest.h>

#include "verdict/ahead_book.hpp"

namespace driftwarden::blanks_ahead_test {
namespace {

BlanksAhead blanks(std::size_t samples, const RulesText& rules = ahead_rules(), const std::string& batch = "B1") {
  static RuleSet set;
  set = rules.rule_set();
  return blanks_ahead(set, batch, samples, facts_of(set.facts, "M", "").of(MassFactKind::blanks));
}

// printed input: NMAM 0600, Issue 3, page 1: 2 to 10 field blanks a set; NMAM, 4th edition, chapter D, section 7.d: two
// for every ten samples, at most ten a set; the answers are derived by hand.
TEST(BlanksAhead, AreTheMostThatAnyRuleAsksFor) {
  EXPECT_EQ(blanks(1).least, 2U);
  EXPECT_EQ(blanks(10).least, 2U);
  EXPECT_EQ(blanks(11).least, 3U);
  EXPECT_EQ(blanks(24).least, 5U);
  EXPECT_EQ(blanks(50).least, 10U);
  EXPECT_FALSE(blanks(50).is_capped);
  ASSERT_EQ(blanks(24).rules.size(), 2U);
  EXPECT_EQ(blanks(24).rules[0].least, 2U);
  EXPECT_EQ(blanks(24).rules[1].least, 5U);
  EXPECT_TRUE(blanks(24).rules[1].is_share);
}

TEST(BlanksAhead, AreNoMoreThanIsEnoughForAnySet) {
  EXPECT_EQ(blanks(60).least, 10U);
  EXPECT_TRUE(blanks(60).is_capped);
  RulesText rules = ahead_rules();
  rules.words.clear();
  EXPECT_EQ(blanks(60, rules).least, 12U);
  EXPECT_FALSE(blanks(60, rules).is_capped);
}

TEST(EnoughBlanks, AreTheMostThatAnySampleHasInWhateverOrderAndNoneWhereOneStatesNone) {
  const auto facts = [](std::initializer_list<double> of_each) {
    std::vector<MassFacts> made;
    for (const double enough : of_each) {
      made.emplace_back();
      if (enough > 0) made.back().of(MassFactKind::blanks) = MassFact{enough, "", "", Standing::read, "own", {}};
    }
    return made;
  };
  EXPECT_EQ(enough_blanks(facts({10, 7}))->value, 10);
  EXPECT_EQ(enough_blanks(facts({7, 10}))->value, 10);
  EXPECT_FALSE(enough_blanks(facts({10, 0})));
  EXPECT_FALSE(enough_blanks(facts({0, 10})));
  EXPECT_FALSE(enough_blanks(facts({})));
}

TEST(BlanksAhead, HeedWhatDoesNotIncludeItsEndAndWhichBatchARuleIsFor) {
  const Condition batch{"batch", {"B2"}, {}, {}};
  const RulesText rules{.rules = {{Subject::batch, "blanks", "more_than", {"2"}},
                                  {Subject::batch, "blank.share", "more_than", {"10 %"}},
                                  {Subject::batch,
                                   "blanks",
                                   "at_least",
                                   {"7"},
                                   Otherwise::note,
                                   Absent::undecided,
                                   Base::by_practice,
                                   {batch}}}};
  EXPECT_EQ(blanks(10, rules).least, 3U);
  EXPECT_EQ(blanks(10, rules).rules[1].least, 2U);
  EXPECT_EQ(blanks(10, rules, "B2").least, 7U);
  EXPECT_TRUE(blanks(10, RulesText{}).rules.empty());
  EXPECT_EQ(blanks(10, RulesText{}).least, 0U);
}

}  // namespace
}  // namespace driftwarden::blanks_ahead_test

// SPDX-License-Identifier: MIT
#include "verdict/rulings.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"
#include "verdict/totals.hpp"

namespace driftwarden::rulings_test {
namespace {

const std::string heading = "decided,by,subject,rule,ruling,reason\n";

// S1 drifts by -2.5 %.
RulesText drift_and_minutes() {
  return {{{Subject::sample, "drift", "within", {"2 %"}},
           {Subject::sample, "minutes", "at_least", {"500 min"}, Otherwise::qualify}}};
}

BookText decided(const std::string& rows) {
  BookText text;
  text.decisions = heading + rows;
  return text;
}

std::string standing(const std::string& rows, const RulesText& rules = drift_and_minutes()) {
  JudgedBook book(decided(rows), rules);
  return standing_text(book.result("S1"));
}

TEST(Rulings, WithoutDecisionsTheVerdictStands) { EXPECT_EQ(standing(""), "void"); }

TEST(Rulings, AnOverruledFindingStaysAndTheSampleStandsAsTheOthersSay) {
  JudgedBook book(decided("2026-09-22T10:00,site hygienist,S1,own/drift,overrule,looked at\n"), drift_and_minutes());
  const SampleResult& result = book.result("S1");
  EXPECT_EQ(result.verdict, Verdict::void_);
  EXPECT_EQ(result.standing, Verdict::qualified);
  EXPECT_EQ(standing_text(result), "void, but counts as qualified by decision");
  ASSERT_EQ(result.findings.size(), 2U);
  EXPECT_TRUE(is_overruled(result.findings[0]));
  EXPECT_EQ(result.findings[1].decision, nullptr);
  EXPECT_EQ(decision_text(book.book(), *result.findings[0].decision),
            "overruled by site hygienist, 2026-09-22T10:00+00:00: looked at [decisions.csv:2]");
}

TEST(Rulings, WithEveryFindingOverruledTheSampleIsValidByDecision) {
  EXPECT_EQ(standing("2026-09-22T10:00,site hygienist,S1,own/drift,overrule,a\n"
                     "2026-09-22T10:00,site hygienist,S1,own/minutes,overrule,b\n"),
            "void, but counts as valid by decision");
}

TEST(Rulings, UpholdingAFindingChangesNothing) {
  EXPECT_EQ(standing("2026-09-22T10:00,site hygienist,S1,own/drift,uphold,a\n"), "void");
}

TEST(Rulings, TheLastRulingIsInForceWhateverTheOrderOfTheRows) {
  EXPECT_EQ(standing("2026-09-22T10:00,site hygienist,S1,own/drift,overrule,a\n"
                     "2026-09-23T10:00,site hygienist,S1,own/drift,uphold,b\n"),
            "void");
  EXPECT_EQ(standing("2026-09-23T10:00,site hygienist,S1,own/drift,uphold,b\n"
                     "2026-09-22T10:00,site hygienist,S1,own/drift,overrule,a\n"),
            "void");
  EXPECT_EQ(standing("2026-09-22T10:00,site hygienist,S1,own/drift,uphold,a\n"
                     "2026-09-23T10:00,site hygienist,S1,own/drift,overrule,b\n"),
            "void, but counts as qualified by decision");
}

TEST(Rulings, OfTwoOfOneMomentTheRowFurtherDownIsInForce) {
  EXPECT_EQ(standing("2026-09-22T10:00,site hygienist,S1,own/drift,overrule,a\n"
                     "2026-09-22T10:00,site hygienist,S1,own/drift,uphold,b\n"),
            "void");
}

TEST(Rulings, ARulingOnAnotherSampleOrRuleIsNone) {
  BookText text = decided(
      "2026-09-22T10:00,site hygienist,S2,own/drift,overrule,a\n"
      "2026-09-22T10:00,site hygienist,S1,own/minutes,overrule,b\n");
  text.samples += "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  JudgedBook book(text, drift_and_minutes());
  EXPECT_EQ(standing_text(book.result("S1")), "void");
}

TEST(Rulings, RecordsThatCannotBeUnderstoodAreNotRuledOn) {
  BookText text = decided("2026-09-22T10:00,site hygienist,S1,book/faulty-records,overrule,a\n");
  text.readings += "2026-09-21T16:12,post,S1,V1,1.9b0\n";
  JudgedBook book(text, drift_and_minutes());
  EXPECT_EQ(standing_text(book.result("S1")), "undecided");
}

TEST(Rulings, ADecisionOnARuleThatRaisesNoFindingIsRemarkedOn) {
  JudgedBook book(decided("2026-09-22T10:00,site hygienist,S1,own/drift,overrule,a\n"),
                  {{{Subject::sample, "drift", "within", {"3 %"}}}});
  const SampleResult& result = book.result("S1");
  EXPECT_EQ(standing_text(result), "valid");
  const std::vector<std::string> remarks = remarks_of(book.screening(), result);
  EXPECT_NE(std::find(remarks.begin(), remarks.end(),
                      "The decision at decisions.csv:2 rules on 'own/drift', which raises no finding here"),
            remarks.end());
}

TEST(Rulings, ADecisionOnAnUnknownRuleIsRemarkedOnWithItsPlaceAndTheNearestRule) {
  const Book book =
      book_of(decided("2026-09-22T10:00,site hygienist,S1,own/drfit,overrule,a\n"
                      "2026-09-22T10:00,site hygienist,S1,drift,overrule,a\n"
                      "2026-09-22T10:00,site hygienist,S1,own/drift,overrule,a\n"
                      "2026-09-22T10:00,site hygienist,S1,book/faulty-records,uphold,a\n"));
  std::string told;
  for (const Diagnostic& remark : decisions_on_unknown_rules(book, drift_and_minutes().rule_set()))
    told += to_text(remark) + "\n";
  const std::string idle = " is no rule of the book's packs; the decision rules on nothing; ";
  EXPECT_EQ(told, "decisions.csv:2: remark: 'own/drfit'" + idle +
                      "did you mean 'own/drift'? [decision/unknown-rule]\n" + "decisions.csv:3: remark: 'drift'" +
                      idle + "did you mean 'own/drift'? [decision/unknown-rule]\n" +
                      "decisions.csv:5: remark: 'book/faulty-records'" + idle +
                      "a record that can't be understood is mended, not ruled on [decision/unknown-rule]\n");
}

TEST(Rulings, ARuleOfTheProgramsOwnIsKnown) {
  for (const Selector of : selectors) {
    const Book book = book_of(decided("2026-09-22T10:00,site hygienist,S1," + own_rule_name(of) + ",overrule,a\n"));
    EXPECT_TRUE(decisions_on_unknown_rules(book, drift_and_minutes().rule_set()).empty()) << own_rule_name(of);
  }
}

TEST(Rulings, ARuleThatIsSwitchedOffIsStillKnown) {
  RuleSet rules = drift_and_minutes().rule_set();
  rules.disabled.push_back(rules.rules.front());
  rules.rules.erase(rules.rules.begin());
  const Book book = book_of(decided("2026-09-22T10:00,site hygienist,S1,own/drift,overrule,a\n"));
  EXPECT_TRUE(decisions_on_unknown_rules(book, rules).empty());
}

TEST(Totals, CountThoseThatStandByDecisionApartAndThoseStillOpen) {
  Totals totals;
  totals.count(Verdict::void_);
  totals.count(Verdict::void_, Verdict::valid);
  totals.count(Verdict::void_, Verdict::undecided);
  totals.count(Verdict::undecided, Verdict::qualified);
  totals.count(Verdict::qualified, Verdict::valid);
  totals.count(Verdict::valid);
  EXPECT_EQ(totals.samples, 6U);
  EXPECT_EQ(totals.void_, 3U);
  EXPECT_EQ(totals.undecided, 1U);
  EXPECT_EQ(totals.qualified, 1U);
  EXPECT_EQ(totals.valid, 1U);
  EXPECT_EQ(totals.valid_by_decision, 2U);
  EXPECT_EQ(totals.qualified_by_decision, 1U);
  EXPECT_EQ(totals.undecided_by_decision, 1U);
  EXPECT_EQ(totals.open, 2U);
  Totals twice = totals;
  twice += totals;
  EXPECT_EQ(twice.valid_by_decision, 4U);
  EXPECT_EQ(twice.qualified_by_decision, 2U);
  EXPECT_EQ(twice.undecided_by_decision, 2U);
  EXPECT_EQ(twice.open, 4U);
}

}  // namespace
}  // namespace driftwarden::rulings_test

// SPDX-License-Identifier: MIT
#include "verdict/book_as_of.hpp"

#include <gtest/gtest.h>

#include "support/laboratory_book.hpp"

namespace driftwarden::book_as_of_test {
namespace {

std::unique_ptr<OpenedBook> opened(const BookText& text, const char* as_of, Diagnostics& found) {
  Day day = no_day;
  StampReader(TimeZone::utc(), DateOrder::iso).read_date(as_of, day);
  return put_together(book_of(text), RulesText{}.rule_set(), day, 1, found);
}

BookText with_a_decision() {
  BookText text;
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S1,own/drift,overrule,seen\n";
  return text;
}

TEST(OpenedBook, LeavesOutWhatWasDecidedLater) {
  Diagnostics found;
  const auto book = opened(with_a_decision(), "2026-09-21", found);
  EXPECT_TRUE(book->book.decisions.empty());
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found.front().id, "decision/later");
  EXPECT_EQ(book->book.problems.size(), found.size());  // they join the book's
}

// A whole batch comes in one report: one remark for all of it. What has no date is known on every day.
TEST(OpenedBook, LeavesOutWhatTheLaboratoryReportedLater) {
  BookText text = laboratory_book(
      "sample,analyte,amount [mg],reported\nS1,dust,1,2026-10-02\nS1,lead,1,\nB1,dust,0,2026-10-02\n"
      "B2,dust,0,2026-10-01\n");
  Diagnostics found;
  const auto book = opened(text, "2026-10-01", found);
  ASSERT_EQ(book->book.results.size(), 2U);
  EXPECT_EQ(book->book.results[0].analyte, "lead");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(to_text(found.front()),
            "results.csv:2: remark: 2 results were reported after 2026-10-01, which stands for today; they are not "
            "counted [results/later]");
  found.clear();
  EXPECT_EQ(opened(text, "2026-10-02", found)->book.results.size(), 4U);
  EXPECT_TRUE(found.empty());
}

std::vector<bool> distrusted(const std::string& results, const char* as_of) {
  Diagnostics found;
  const auto book = opened(weighing_book(results), as_of, found);
  std::vector<bool> all;
  for (const LaboratoryResult& of : book->book.results) all.push_back(of.problem != no_problem);
  for (const ControlFilter& of : book->book.controls) all.push_back(of.problem != no_problem);
  return all;
}

// A corrected report that came later is not known on a day before it: the first one stands there alone.
TEST(OpenedBook, DistrustsTwoReportsOfOneThingOnceBothAreKnown) {
  const std::string corrected =
      "sample,analyte,amount [mg],reported\nS1,dust,1,2026-10-02\nS1,Dust,2,2026-10-09\nS1,lead,1,\n";
  EXPECT_EQ(distrusted(corrected, "2026-10-08"), (std::vector<bool>{false, false}));
  EXPECT_EQ(distrusted(corrected, "2026-10-09"), (std::vector<bool>{true, true, false}));
  const std::string filters =
      "sample,analyte,before [mg],after [mg],kind,batch,reported\nC,dust,1,1.1,control,B,2026-10-09\n"
      "C,dust,1,1.2,control,B,2026-10-02\n";
  EXPECT_EQ(distrusted(filters, "2026-10-08"), std::vector<bool>{false});
  EXPECT_EQ(distrusted(filters, "2026-10-09"), (std::vector<bool>{true, true}));
}

// A row that can't be understood may be the one that is meant.
TEST(OpenedBook, DistrustsAReportBesideOneThatCannotBeRead) {
  EXPECT_EQ(distrusted("sample,analyte,amount [mg]\nS1,dust,x\nS1,dust,1\n", "2026-10-08"),
            (std::vector<bool>{true, true}));
}

TEST(OpenedBook, CountsWhatWasDecidedOnTheDay) {
  Diagnostics found;
  EXPECT_EQ(opened(with_a_decision(), "2026-09-22", found)->book.decisions.size(), 1U);
}

// What only the rules can tell of a book joins its problems, and it is ready to be judged.
TEST(OpenedBook, KnowsWhatItsRulesFindOddInIt) {
  BookText text = with_a_decision();
  text.decisions.replace(text.decisions.find("own/drift"), 9, "own/drfit");
  text.samples = "sample,pump,sampler,started,stopped\nS1,P1,cyclne,2026-09-21T08:00,2026-09-21T16:00\n";
  RuleText rule{Subject::sample, "drift", "within", {"2 %"}};
  rule.where = {{"pump", {"P9"}, {}, {}}};
  Diagnostics found;
  const auto book =
      put_together(book_of(text), RulesText{{rule}, {sampler("cyclone", 2.0)}}.rule_set(), 20773, 1, found);
  std::vector<std::string> ids;
  for (const Diagnostic& one : found) ids.push_back(one.id);
  EXPECT_EQ(ids, (std::vector<std::string>{"decision/unknown-rule", "sample/unknown-sampler", "rule/unmet-name"}));
  EXPECT_EQ(book->book.problems.size(), 3U);
  ASSERT_NE(book->screening, nullptr);
  EXPECT_EQ(&book->screening->book(), &book->book);
}

TEST(OpenedBook, HasFaultsWhereTheBookHasErrors) {
  Diagnostics found;
  EXPECT_FALSE(opened({}, "2026-09-22", found)->has_faults());
  BookText faulty;
  faulty.samples += "S2,P9,2026-09-21T08:00,2026-09-21T16:00\n";
  EXPECT_TRUE(opened(faulty, "2026-09-22", found)->has_faults());
}

}  // namespace
}  // namespace driftwarden::book_as_of_test

// SPDX-License-Identifier: MIT
// The flow between the checks, and through the field sets: every figure was computed outside this program, by pocket
// calculator, from the definitions in docs/uncertainty.md.
#include "assessment/flow_between.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"
#include "quantity/number.hpp"

namespace driftwarden::flow_between_test {
namespace {

// derived: by the arithmetic above each test; 0.0116348920 is 1 % of 1.002 x 2.0112 L/min over the root of 3,
// 0.00465395680 is 0.4 % of it, likewise.

constexpr double flow = 1.002 * 2.0112;  // L/min, before and after

// The worked book, its post readings like its pre readings.
BookText level_book() {
  BookText text = worked_book();
  for (const auto& [post, pre] :
       {std::pair{"1.957", "2.013"}, {"1.962", "2.008"}, {"1.955", "2.011"}, {"1.960", "2.015"}, {"1.958", "2.009"}}) {
    replace_all(text.readings, std::string("post,S1,V1,") + post, std::string("post,S1,V1,") + pre);
  }
  return text;
}

// P1 in uses of two hours before S1, a day each, that moved its flow by so much relative to the mean.
void add_uses(BookText& text, const std::vector<double>& drifts, const std::string& month = "2026-08-0") {
  for (std::size_t i = 0; i < drifts.size(); ++i) {
    const std::string name = "U" + std::to_string(i + 1);
    const std::string day = month + std::to_string(i + 1) + "T";
    text.samples += name + ",P1," + day + "08:00," + day + "10:00,,\n";
    text.readings += day + "07:30,pre," + name + ",V1," + shortest(2 - drifts[i]) + "\n";
    text.readings += day + "10:10,post," + name + ",V1," + shortest(2 + drifts[i]) + "\n";
  }
}

// 1 % of 2.0152224 L/min / √3.
TEST(FlowBetween, IsNotZeroBecausePreHappensToEqualPost) {
  const BudgetedBook book(level_book());
  const BudgetLine* line = book.line(BudgetSource::flow_between);
  ASSERT_NE(line, nullptr);
  expect_digits(line->u, 0.01 * flow / std::sqrt(3.0));
  expect_digits(line->u, 0.0116348920);
  EXPECT_EQ(line->distribution, Distribution::rectangular);
  EXPECT_TRUE(std::isinf(line->dof));
  EXPECT_EQ(book.budget.flow_between.from, FlowBetween::From::stated);
  EXPECT_EQ(book.budget.flow_between.earlier.uses, 0U);
}

TEST(FlowBetween, FollowsWhatTheBookStates) {
  BookText text = level_book();
  text.settings += "flow_between = \"0.4 %\"\n";
  expect_digits(BudgetedBook(text).line(BudgetSource::flow_between)->u, 0.00465395680);
}

// Squares of -1, 2, -2, 1 and 0 % add up to 0.001: s = sqrt(0.001 / 5) = 1.4142136 %, half of it 0.70710678 % of the
// flow.
TEST(FlowBetween, FollowsThePumpsOwnDriftWhereFiveUsesTell) {
  BookText text = level_book();
  add_uses(text, {-0.01, 0.02, -0.02, 0.01, 0});
  const BudgetedBook book(text);
  const BudgetLine* line = book.line(BudgetSource::flow_between);
  expect_digits(line->u, 0.00822711103);
  EXPECT_EQ(line->distribution, Distribution::student_t);
  EXPECT_NEAR(line->dof, 5, 1e-9);
  EXPECT_EQ(book.budget.flow_between.from, FlowBetween::From::earlier_uses);
  EXPECT_EQ(book.budget.flow_between.earlier.uses, 5U);
  EXPECT_NEAR(book.budget.flow_between.earlier.s, 0.014142136, 1e-8);
}

TEST(FlowBetween, TakesFourUsesForTooFew) {
  BookText text = level_book();
  add_uses(text, {-0.01, 0.02, -0.02, 0.01});
  const BudgetedBook book(text);
  expect_digits(book.line(BudgetSource::flow_between)->u, 0.0116348920);
  EXPECT_EQ(book.budget.flow_between.from, FlowBetween::From::stated);
  EXPECT_EQ(book.budget.flow_between.earlier.uses, 4U);
}

TEST(FlowBetween, OfAnOldSampleIsNotChangedByLaterRecords) {
  BookText text = level_book();
  add_uses(text, {-0.01, 0.02, -0.02, 0.01, 0});
  const BudgetedBook before(text);
  BookText more = text;
  add_uses(more, {0.15, 0.2}, "2026-10-0");
  replace_all(more.samples, "U1,P1,2026-10-01", "W1,P1,2026-10-01");
  replace_all(more.samples, "U2,P1,2026-10-02", "W2,P1,2026-10-02");
  for (const std::string use : {"1", "2"}) {
    replace_all(more.readings, "2026-10-0" + use + "T07:30,pre,U", "2026-10-0" + use + "T07:30,pre,W");
    replace_all(more.readings, "2026-10-0" + use + "T10:10,post,U", "2026-10-0" + use + "T10:10,post,W");
  }
  const BudgetedBook after(more);
  EXPECT_EQ(after.basis.pump_drifts.before(0, after.figures.post_set()->rows.first + 90 * 86400).uses, 8U);
  EXPECT_EQ(after.budget.about(BudgetFigure::volume).expanded, before.budget.about(BudgetFigure::volume).expanded);
}

// Half of 0.0529056 L/min is more than 1 % of 1.9887696 L/min.
TEST(FlowBetween, IsHalfTheDistanceWhereThatIsMore) {
  const BudgetedBook book(worked_book());
  expect_digits(book.line(BudgetSource::flow_between)->u, 0.0264528 / std::sqrt(3.0));
  EXPECT_EQ(book.budget.flow_between.from, FlowBetween::From::distance);
}

TEST(FlowBetween, ReachesTwiceAsFarWhereOneOfTheTwoFlowsCounts) {
  AssessmentPractice pre_only;
  pre_only.flow_for_volume = FlowForVolume::pre;
  expect_digits(BudgetedBook(level_book(), pre_only).line(BudgetSource::flow_between)->u, 2 * 0.0116348920);
}

}  // namespace
}  // namespace driftwarden::flow_between_test

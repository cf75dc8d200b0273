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

AssessmentPractice along_the_line() {
  AssessmentPractice practice;
  practice.field_sets = FieldSets::line;
  return practice;
}

// 2.0 L/min before, 1.8 half way and at the end.
BookText falling_book(const std::string& paused = "") {
  BookText text = sagging_book();
  text.samples = "sample,pump,started,stopped,paused [min],pressure [kPa]\nS1,P1,2026-09-21T08:00,2026-09-21T16:00," +
                 paused + ",\n";
  replace_all(text.readings, "post,S1,V1,2.001", "post,S1,V1,1.801");
  replace_all(text.readings, "post,S1,V1,1.999", "post,S1,V1,1.799");
  return text;
}

// 2.25 before and 1.75 after are 0.25 from their mean of 2, and 12.5 % of that is as much.
TEST(FlowBetween, IsTheDistanceWhereThatIsJustAsMuch) {
  BookText text;
  text.certificates = certificates_with_uncertainty;
  text.settings += "[uncertainty]\nflow_between = \"12.5 %\"\n";
  text.readings = two_and_two("calibrator,reading [L/min]", "V1,2.25", "V1,1.75");
  const BudgetedBook book(text);
  EXPECT_EQ(book.budget.flow_between.from, FlowBetween::From::distance);
  expect_digits(book.line(BudgetSource::flow_between)->u, 0.25 / std::sqrt(3.0));
}

TEST(FlowBetween, IsNothingWhereNothingSeparatesTheChecksAndNothingIsStated) {
  BookText text = level_book();
  text.settings += "flow_between = \"0 %\"\n";
  const BudgetedBook book(text);
  EXPECT_EQ(book.budget.flow_between.from, FlowBetween::From::distance);
  EXPECT_EQ(book.line(BudgetSource::flow_between)->u, 0);
}

TEST(FlowBetween, OfAPumpThatNeverMovedLeavesTheUncertaintyOfTheVolumeKnown) {
  BookText text = level_book();
  add_uses(text, {0, 0, 0, 0, 0});
  const BudgetedBook book(text);
  EXPECT_EQ(book.line(BudgetSource::flow_between)->u, 0);
  EXPECT_TRUE(std::isinf(book.line(BudgetSource::flow_between)->dof));
  EXPECT_FALSE(is_missing(book.budget.about(BudgetFigure::volume).expanded));
}

// The first span by half the distance, ½ · 0.1 = 0.05; the second by the pump's drift of five uses, s = 1.4142136 %:
// ½ √½ · 1.85 · 0.70710678 % = 0.004625, the only part with degrees of freedom, so 5 · (sum / part)².
TEST(FlowBetween, HasTheDegreesOfFreedomOfThePumpsUsesWhereTheirDriftLeads) {
  BookText text = falling_book();
  add_uses(text, {-0.01, 0.02, -0.02, 0.01, 0});
  const BudgetedBook book(text, along_the_line());
  const BudgetLine* line = book.line(BudgetSource::flow_between);
  constexpr double by_distance = 0.05 * 0.05;
  constexpr double by_drift = 0.004625 * 0.004625;
  expect_digits(line->u, std::sqrt((by_distance + by_drift) / 3));
  EXPECT_NEAR(line->dof, 5 * std::pow((by_distance + by_drift) / by_drift, 2), 0.1);
  EXPECT_EQ(book.budget.flow_between.from, FlowBetween::From::distance);
}

// The mean is 1.85, that of the first span 1.9: 0.05 · paused / minutes. All of it is a pause: nothing was drawn.
TEST(FlowBetween, PausesMayAllHaveBeenInOneSpan) {
  const auto half_width = [](const std::string& paused) {
    return pauses_half_width(BudgetedBook(falling_book(paused), along_the_line()).figures);
  };
  EXPECT_NEAR(half_width("48"), 0.05 * 48 / 432, 1e-12);
  EXPECT_NEAR(half_width("0.01"), 0.05 * 0.01 / 479.99, 1e-12);
  EXPECT_NEAR(half_width("479.99"), 0.05 * 479.99 / 0.01, 1e-6);
  EXPECT_EQ(half_width(""), 0);
  EXPECT_EQ(half_width("480"), 0);
}

}  // namespace
}  // namespace driftwarden::flow_between_test

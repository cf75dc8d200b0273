// SPDX-License-Identifier: MIT
#include "assessment/budget_sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"

namespace driftwarden::budget_sheet_test {
namespace {

// derived: a drift of so many parts of the pre, post or mean flow, its derivatives by small steps.
TEST(BudgetSheet, FollowsThePracticeOfTheDriftBase) {
  const double q1 = 1.002 * 2.0112;
  const double q2 = 1.002 * 1.9584;
  const auto drift = [](DriftBase base, double a, double b) {
    return (b - a) / (base == DriftBase::pre ? a : base == DriftBase::post ? b : (a + b) / 2);
  };
  for (const DriftBase base : {DriftBase::pre, DriftBase::post, DriftBase::mean}) {
    AssessmentPractice practice;
    practice.drift_base = base;
    const BudgetedBook book(worked_book(), practice);
    constexpr double h = 1e-5;
    const double by_pre = (drift(base, q1 + h, q2) - drift(base, q1 - h, q2)) / (2 * h);
    const double by_post = (drift(base, q1, q2 + h) - drift(base, q1, q2 - h)) / (2 * h);
    EXPECT_NEAR(book.line(BudgetSource::pre_repeatability)->sensitivity[0], by_pre, 1e-8);
    EXPECT_NEAR(book.line(BudgetSource::post_repeatability)->sensitivity[0], by_post, 1e-8);
  }
}

// derived: what rounding leaves of equal shares is no sensitivity: 0.1 + 0.2 - 0.3 is 5.6e-17 in doubles.
TEST(BudgetSheet, EqualSharesCancelWholly) {
  EXPECT_EQ(weighted({0.1 + 0.2, -0.3}, 1, 1), 0);
  EXPECT_EQ(weighted({-1, 1}, 0.5, 0.75), 0.25);
}

// derived: 1e-12 of the shares' sizes counts as rounding: 2e-12 of 2 and 2e-6 of two millions.
TEST(BudgetSheet, WhatIsLeftOfSharesIsRoundingBelowATrillionthOfThem) {
  EXPECT_EQ(weighted({1, -1}, 1, 1 - 1.99e-12), 0);
  EXPECT_NEAR(weighted({1, -1}, 1, 1 - 2.01e-12), 2.01e-12, 1e-15);
  EXPECT_EQ(weighted({1, -1}, 1e6, 1e6 - 1e-6), 0);
  EXPECT_NEAR(weighted({1, -1}, 1e6, 1e6 - 1e-5), 1e-5, 1e-9);
}

// derived: the flow for the volume follows the set it is taken from one to one, and the other not at all.
TEST(BudgetSheet, FollowsThePracticeOfTheFlow) {
  const auto expect_follows = [](FlowForVolume flow, const std::string& pre, const std::string& post, double by_pre) {
    BookText text = worked_book();
    text.readings = two_and_two("calibrator,reading [L/min]", "V1," + pre, "V1," + post);
    AssessmentPractice practice;
    practice.flow_for_volume = flow;
    const BudgetedBook book(text, practice);
    constexpr auto of_flow = static_cast<std::size_t>(BudgetFigure::flow);
    EXPECT_EQ(book.line(BudgetSource::pre_repeatability)->sensitivity[of_flow], by_pre) << pre << " " << post;
    EXPECT_EQ(book.line(BudgetSource::post_repeatability)->sensitivity[of_flow], 1 - by_pre) << pre << " " << post;
  };
  expect_follows(FlowForVolume::mean, "2", "1.9", 0.5);
  expect_follows(FlowForVolume::pre, "2", "1.9", 1);
  expect_follows(FlowForVolume::lower, "2", "1.9", 0);
  expect_follows(FlowForVolume::lower, "1.9", "2", 1);
  expect_follows(FlowForVolume::lower, "2", "2", 1);
}

}  // namespace
}  // namespace driftwarden::budget_sheet_test

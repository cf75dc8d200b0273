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

}  // namespace
}  // namespace driftwarden::budget_sheet_test

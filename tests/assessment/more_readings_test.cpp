// SPDX-License-Identifier: MIT
#include "assessment/more_readings.hpp"

#include <cmath>

#include "assessment/worked_budget.hpp"

namespace driftwarden::more_readings_test {
namespace {

double share_of(const Budget& budget, BudgetSource source, BudgetFigure figure) {
  for (const BudgetLine& line : budget.lines) {
    if (line.source == source) return line.contribution(figure) * line.contribution(figure);
  }
  return missing;
}

// derived: five readings a set in the worked book, so with two more five sevenths of their variance.
TEST(MoreReadings, TakeFromTheRepeatabilityAlone) {
  const BudgetedBook worked(worked_book());
  const Budget with = with_more_readings(worked.budget, worked.figures, 2);
  for (const BudgetSource source : {BudgetSource::pre_repeatability, BudgetSource::post_repeatability}) {
    EXPECT_NEAR(share_of(with, source, BudgetFigure::drift),
                share_of(worked.budget, source, BudgetFigure::drift) * 5 / 7, 1e-18);
  }
  EXPECT_EQ(share_of(with, BudgetSource::certificate, BudgetFigure::volume),
            share_of(worked.budget, BudgetSource::certificate, BudgetFigure::volume));
}

TEST(MoreReadings, MakeEachFigureBetterKnownByThat) {
  const BudgetedBook worked(worked_book());
  const Budget with = with_more_readings(worked.budget, worked.figures, 2);
  for (const BudgetFigure figure : {BudgetFigure::drift, BudgetFigure::volume}) {
    double variance = std::pow(worked.budget.about(figure).u, 2);
    for (const BudgetSource source : {BudgetSource::pre_repeatability, BudgetSource::post_repeatability})
      variance -= share_of(worked.budget, source, figure) * 2 / 7;
    EXPECT_NEAR(with.about(figure).u, std::sqrt(variance), 1e-9 * with.about(figure).u);
  }
  EXPECT_GT(with.about(BudgetFigure::drift).dof, worked.budget.about(BudgetFigure::drift).dof);
}

TEST(MoreReadings, NoneAreTheBudgetItself) {
  const BudgetedBook worked(worked_book());
  const Budget with = with_more_readings(worked.budget, worked.figures, 0);
  EXPECT_EQ(with.about(BudgetFigure::drift).u, worked.budget.about(BudgetFigure::drift).u);
  EXPECT_EQ(with.about(BudgetFigure::volume).expanded, worked.budget.about(BudgetFigure::volume).expanded);
}

TEST(MoreReadings, OfASingleReadingTakeFromThePooledScatter) {
  BookText text;
  text.certificates = certificates_with_uncertainty;
  text.samples += "S0,P2,2026-09-20T08:00,2026-09-20T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-20T07:30,pre,S0,V1,2.013\n2026-09-20T07:31,pre,S0,V1,2.008\n2026-09-20T07:32,pre,S0,V1,2.010\n"
      "2026-09-21T07:30,pre,S1,V1,2.013\n2026-09-21T07:31,pre,S1,V1,2.008\n2026-09-21T16:10,post,S1,V1,1.957\n";
  const BudgetedBook single(text);
  const BudgetLine* pooled = single.line(BudgetSource::post_pooled_repeatability);
  ASSERT_NE(pooled, nullptr);
  const Budget with = with_more_readings(single.budget, single.figures, 2);
  for (const BudgetLine& line : with.lines) {
    if (line.source != BudgetSource::post_pooled_repeatability) continue;
    EXPECT_NEAR(line.u, pooled->u / std::sqrt(3.0), 1e-15);
    EXPECT_EQ(line.dof, pooled->dof);
  }
}

}  // namespace
}  // namespace driftwarden::more_readings_test

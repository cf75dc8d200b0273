// SPDX-License-Identifier: MIT
#include "assessment/calibrator_scatter.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"

namespace driftwarden::calibrator_scatter_test {
namespace {

// input: V1 read three times about 2 L/min for S1, twice about 1 L/min on pump P1, and once for S1 afterwards.
BookText three_sets() {
  BookText text = worked_book();
  text.certificates = "";
  text.readings =
      "taken,stage,sample,pump,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,,V1,1.996\n2026-09-21T07:31,pre,S1,,V1,2.000\n2026-09-21T07:32,pre,S1,,V1,2.004\n"
      "2026-09-21T09:00,field,,P1,V1,0.996464466\n2026-09-21T09:01,field,,P1,V1,1.003535534\n"
      "2026-09-21T16:10,post,S1,,V1,1.95\n";
  return text;
}

Moment at(const Book& book, Row reading) { return book.readings.taken[reading]; }

// own input: the example of the formula: s is 0.2 % of three readings and 0.5 % of two, computed by hand.
TEST(CalibratorScatter, PoolsWhatWasReadBefore) {
  const BudgetedBook book(three_sets());
  const PooledSpread all = book.basis.scatter.before(book.basis, 1, at(book.book, 5));
  EXPECT_NEAR(all.s, std::sqrt((2 * 0.2 * 0.2 + 0.5 * 0.5) / 3) / 100, 1e-9);
  EXPECT_EQ(all.dof, 3);
}

// derived: 2.000 ± 0.004 L/min three times is s = 0.2 %.
TEST(CalibratorScatter, KnowsNothingOfLaterSetsNorOfTheSetItself) {
  const BudgetedBook book(three_sets());
  const PooledSpread first = book.basis.scatter.before(book.basis, 1, at(book.book, 3));
  EXPECT_NEAR(first.s, 0.002, 1e-12);
  EXPECT_EQ(first.dof, 2);
  EXPECT_EQ(book.basis.scatter.before(book.basis, 1, at(book.book, 2)).dof, 0);  // on its last reading it hasn't ended
  EXPECT_EQ(book.basis.scatter.before(book.basis, 2, at(book.book, 5)).dof, 0);  // another calibrator
}

// derived: of 1.996, 2.000 and a slip struck out, one degree of freedom is left.
TEST(CalibratorScatter, LeavesOutReadingsThatAreStruckOut) {
  BookText text = three_sets();
  replace_all(text.readings, "reading [L/min]\n", "void,note,reading [L/min]\n");
  replace_all(text.readings, ",V1,", ",V1,,,");
  replace_all(text.readings, ",V1,,,2.004\n", ",V1,yes,slip,9\n");
  const BudgetedBook book(text);
  const PooledSpread first = book.basis.scatter.before(book.basis, 1, at(book.book, 3));
  EXPECT_NEAR(first.s, 0.00282842712 / 1.998, 1e-9);
  EXPECT_EQ(first.dof, 1);
}

}  // namespace
}  // namespace driftwarden::calibrator_scatter_test

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
  const PooledSpread all = book.basis.scatter.before(1, at(book.book, 5));
  EXPECT_NEAR(all.s, std::sqrt((2 * 0.2 * 0.2 + 0.5 * 0.5) / 3) / 100, 1e-9);
  EXPECT_EQ(all.dof, 3);
}

// derived: 2.000 ± 0.004 L/min three times is s = 0.2 %.
TEST(CalibratorScatter, KnowsNothingOfLaterSetsNorOfTheSetItself) {
  const BudgetedBook book(three_sets());
  const PooledSpread first = book.basis.scatter.before(1, at(book.book, 3));
  EXPECT_NEAR(first.s, 0.002, 1e-12);
  EXPECT_EQ(first.dof, 2);
  EXPECT_EQ(book.basis.scatter.before(1, at(book.book, 2)).dof, 0);  // on its last reading it hasn't ended
  EXPECT_EQ(book.basis.scatter.before(2, at(book.book, 5)).dof, 0);  // another calibrator
}

// How a calibrator (1: V1) had scattered by the last reading of a book with these readings.
PooledSpread by_the_end(const std::string& readings, const std::string& headings = "reading [L/min]") {
  BookText text = three_sets();
  text.instruments += "P2,pump,,\n";
  text.samples += "S2,P1,2026-09-22T08:00,2026-09-22T16:00,23,98.60\n";
  text.readings = "taken,stage,sample,pump,calibrator," + headings + "\n" + readings;
  const BudgetedBook book(text);
  return book.basis.scatter.before(1, book.book.readings.taken[static_cast<Row>(book.book.readings.size() - 1)]);
}

// derived: sets of two readings, one degree of freedom each.
TEST(CalibratorScatter, KnowsTheSetsOfEachSampleAndPumpApart) {
  const std::string later = "2026-09-21T20:00,post,S1,,V1,2\n";
  EXPECT_EQ(by_the_end("2026-09-21T07:30,pre,S1,,V1,2.00\n2026-09-21T07:31,pre,S1,,V1,2.01\n"
                       "2026-09-21T07:32,pre,S2,,V1,2.00\n2026-09-21T07:33,pre,S2,,V1,2.01\n" +
                       later)
                .dof,
            2);
  EXPECT_EQ(by_the_end("2026-09-21T07:30,pre,,P1,V1,2.00\n2026-09-21T07:30,pre,,P2,V1,2.00\n"
                       "2026-09-21T07:31,pre,,P1,V1,2.01\n2026-09-21T07:31,pre,,P2,V1,2.01\n" +
                       later)
                .dof,
            2);
}

// derived: 0.996464466 and 1.003535534 L/min is s = 0.5 %; whatever its place in the file, what ended first comes
// first.
TEST(CalibratorScatter, GoesByTheTimeAndNotByTheFile) {
  BookText text = three_sets();
  replace_all(text.readings, "T09:0", "T05:0");
  const BudgetedBook book(text);
  const PooledSpread first = book.basis.scatter.before(1, at(book.book, 0));
  EXPECT_EQ(first.dof, 1);
  EXPECT_NEAR(first.s, 0.005, 1e-9);
  EXPECT_EQ(book.basis.scatter.before(1, at(book.book, 5)).dof, 3);
}

TEST(CalibratorScatter, LeavesOutWhatIsNoFlowOrNoReading) {
  const std::string sound = "2026-09-21T07:30,pre,S1,,V1,2.00\n2026-09-21T07:31,pre,S1,,V1,2.01\n";
  const std::string later = "2026-09-21T20:00,post,S1,,V1,2\n";
  const PooledSpread alone = by_the_end(sound + later);
  EXPECT_EQ(alone.dof, 1);
  for (const char* more : {"2026-09-21T09:00,field,,P1,V1,0\n2026-09-21T09:01,field,,P1,V1,0\n",
                           "2026-09-21T09:00,field,,P1,V1,2\n2026-09-21T09:01,field,,P1,V1,2.O\n",
                           "2026-09-21T09:00,field,,P1,V1,2\n2026-09-21T09:0x,field,,P1,V1,3\n",
                           "2026-09-21T09:00,field,,P1,V9,2\n2026-09-21T09:01,field,,P1,V9,3\n"}) {
    const PooledSpread with = by_the_end(sound + more + later);
    EXPECT_EQ(with.dof, alone.dof) << more;
    EXPECT_EQ(with.s, alone.s) << more;
  }
}

// derived: the post set is one reading; three degrees of freedom were known before it.
TEST(CalibratorScatter, IsLeanedOnByASetOfOneReadingThatHasAPast) {
  const BudgetedBook book(three_sets());
  const std::vector<HandedScatter> leaned_on = scatter_leaned_on(book.basis, book.figures);
  ASSERT_EQ(leaned_on.size(), 1U);
  EXPECT_EQ(leaned_on[0].calibrator, 1U);
  EXPECT_EQ(leaned_on[0].before, at(book.book, 5));
  EXPECT_EQ(leaned_on[0].dof, 3);
  BookText text = three_sets();
  text.readings = "taken,stage,sample,pump,calibrator,reading [L/min]\n2026-09-21T16:10,post,S1,,V1,1.95\n";
  const BudgetedBook no_past(text);
  EXPECT_TRUE(scatter_leaned_on(no_past.basis, no_past.figures).empty());
}

// derived: of 1.996, 2.000 and a slip struck out, one degree of freedom is left.
TEST(CalibratorScatter, LeavesOutReadingsThatAreStruckOut) {
  BookText text = three_sets();
  replace_all(text.readings, "reading [L/min]\n", "void,note,reading [L/min]\n");
  replace_all(text.readings, ",V1,", ",V1,,,");
  replace_all(text.readings, ",V1,,,2.004\n", ",V1,yes,slip,9\n");
  const BudgetedBook book(text);
  const PooledSpread first = book.basis.scatter.before(1, at(book.book, 3));
  EXPECT_NEAR(first.s, 0.00282842712 / 1.998, 1e-9);
  EXPECT_EQ(first.dof, 1);
}

// derived: 1.996 and 2.000 are s / q = 0.00282842712 / 1.998, whatever 2.00O was.
TEST(CalibratorScatter, LeavesOutAReadingOfASetThatCannotBeUnderstood) {
  BookText text = three_sets();
  replace_all(text.readings, "V1,2.004\n", "V1,2.00O\n");
  const BudgetedBook book(text);
  const PooledSpread first = book.basis.scatter.before(1, at(book.book, 3));
  EXPECT_NEAR(first.s, 0.00282842712 / 1.998, 1e-9);
  EXPECT_EQ(first.dof, 1);
}

// derived: 2.000 ± 0.004 L/min three times is s = 0.2 %.
TEST(CalibratorScatter, LearnsNothingFromASetOfWhichOneReadingIsLeft) {
  BookText text = three_sets();
  replace_all(text.readings, "reading [L/min]\n", "void,note,reading [L/min]\n");
  replace_all(text.readings, ",V1,", ",V1,,,");
  replace_all(text.readings, ",V1,,,1.003535534\n", ",V1,yes,slip,9\n");
  const BudgetedBook book(text);
  const PooledSpread all = book.basis.scatter.before(1, at(book.book, 5));
  EXPECT_NEAR(all.s, 0.002, 1e-12);
  EXPECT_EQ(all.dof, 2);
}

// input: what was handed. A part of a split book has what the whole book knew at the moment of each single reading, and
// nothing else.
TEST(CalibratorScatter, OfAPartOfABookIsWhatItWasHanded) {
  Book book = book_of(three_sets());
  book.files.pooled = {"pooled.csv"};
  book.handed_scatter = {{1, book.readings.taken[5], 0.004, 7}, {2, book.readings.taken[0], 0.003, 9}};
  const AssessmentBasis basis(book, {}, {});
  SetRows set;
  set.calibrator = 1;
  set.first = book.readings.taken[5];
  EXPECT_EQ(basis.scatter.of_single(set).s, 0.004);
  EXPECT_EQ(basis.scatter.of_single(set).dof, 7);
  set.first = book.readings.taken[3];
  EXPECT_EQ(basis.scatter.of_single(set).dof, 0);
}

// derived: 2.000 and 2.004 before tell one degree of freedom, which is enough to lean on.
TEST(CalibratorScatter, IsLeanedOnFromOneDegreeOfFreedomOn) {
  BookText text = three_sets();
  text.readings =
      "taken,stage,sample,pump,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,,V1,2.000\n"
      "2026-09-21T07:31,pre,S1,,V1,2.004\n2026-09-21T16:10,post,S1,,V1,1.95\n";
  const BudgetedBook book(text);
  ASSERT_EQ(scatter_leaned_on(book.basis, book.figures).size(), 1U);
  EXPECT_EQ(scatter_leaned_on(book.basis, book.figures)[0].dof, 1);
}

}  // namespace
}  // namespace driftwarden::calibrator_scatter_test

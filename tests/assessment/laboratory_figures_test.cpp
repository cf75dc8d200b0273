// SPDX-License-Identifier: MIT
#include "assessment/laboratory_figures.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/assessed_book.hpp"
#include "support/laboratory_book.hpp"

namespace driftwarden::laboratory_figures_test {
namespace {

const std::string by_amount = "sample,analyte,amount [mg],limit [mg],expanded uncertainty [%]\n";

struct Laboratory {
  explicit Laboratory(const BookText& text, const AssessmentPractice& practice = taken_off())
      : assessed(text, practice), index(assessed.book) {
    budget.of[static_cast<std::size_t>(BudgetFigure::volume)] = {4.4, 12, 2.18, 9.6};
  }
  static AssessmentPractice taken_off() {
    AssessmentPractice practice;
    practice.blank_correction = BlankCorrection::mean;
    return practice;
  }
  ResultFigures of(std::string_view sample, std::size_t number = 0) {
    return laboratory_figures(index, assessed.basis, assessed.of(sample), budget).at(number);
  }
  AssessedBook assessed;
  ResultIndex index;
  Budget budget;
};

// own input: 0.532 mg known to 5 % (k = 2), blanks of 0.007 and 0.005 mg, 887.25 L with u = 4.4 L and 12 degrees of
// freedom; computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(LaboratoryFigures, TakesTheBlanksOffAndFormsTheConcentration) {
  Laboratory laboratory(laboratory_book());
  const ResultFigures figures = laboratory.of("S1");
  EXPECT_EQ(figures.blanks->results, (std::vector<std::uint32_t>{1, 2}));
  EXPECT_EQ(figures.blanks->samples, 1U);
  EXPECT_NEAR(figures.blanks->amounts.s, 0.0014142, 5e-8);
  EXPECT_NEAR(figures.net, 0.526, 1e-12);
  EXPECT_NEAR(figures.volume_l, 887.25, 1e-9);
  EXPECT_NEAR(figures.concentration, 0.59284, 5e-6);
  EXPECT_NEAR(figures.of_found.expanded, 0.026068, 5e-7);
  EXPECT_NEAR(figures.of_blank.u, 0.00173205, 5e-9);
  EXPECT_NEAR(figures.of_net.u, 0.0134123, 5e-8);
  EXPECT_NEAR(figures.of_net.dof, 3595.60, 0.005);
  EXPECT_NEAR(figures.of_net.expanded, 0.0262965, 5e-8);
  EXPECT_NEAR(figures.of_concentration.u, 0.0154, 5e-7);
  EXPECT_NEAR(figures.of_concentration.dof, 2710.70, 0.005);
  EXPECT_NEAR(figures.of_concentration.expanded, 0.0301969, 5e-8);
  EXPECT_FALSE(figures.is_less_than);
}

// derived: 15.842 - 15.310.
TEST(LaboratoryFigures, LeavesTheBlanksWhereNobodyTakesThemOff) {
  Laboratory laboratory(laboratory_book(), AssessmentPractice());
  EXPECT_NEAR(laboratory.of("S1").net, 0.532, 1e-12);
  EXPECT_EQ(laboratory.of("S1").of_net.u, laboratory.of("S1").of_found.u);
}

TEST(LaboratoryFigures, CountOnlyBlanksOfTheBatchAndTheAnalyte) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.5,,\nB1,quartz,0.5,,\nK1,dust,0.5,,\nB2,dust,0.01,,\n"));
  EXPECT_EQ(laboratory.of("S1").blanks->results, std::vector<std::uint32_t>{3});
  EXPECT_NEAR(laboratory.of("S1").net, 0.49, 1e-12);
}

TEST(LaboratoryFigures, TakeAnalytesForOneThatDifferInCapitalsOrBlanksAlone) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,total dust,0.5,,\nB1,Total Dust,0.01,,\n"));
  EXPECT_NEAR(laboratory.of("S1").net, 0.49, 1e-12);
}

// derived: nothing is left, known to as much as the blanks scatter: U of the net amount in 887.25 L.
TEST(LaboratoryFigures, KnowAConcentrationOfNothingAsWellAsItsAmount) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.5,,4\nB1,dust,0.4,,\nB2,dust,0.6,,\n"));
  const ResultFigures figures = laboratory.of("S1");
  EXPECT_NEAR(figures.net, 0, 1e-15);
  EXPECT_NEAR(figures.of_concentration.u, 1000 * figures.of_net.u / 887.25, 1e-9);
}

// derived: both are anything from 0 to 0.03 mg, and the same: 0.03 / √3.
TEST(LaboratoryFigures, KnowTheMeanOfBlanksNoBetterThanTheirLimits) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.5,,\nB1,dust,<0.03,,\nB2,dust,<0.03,,\n"));
  EXPECT_NEAR(uncertainty_of_mean(*laboratory.of("S1").blanks).u, 0.0173205, 5e-8);
  EXPECT_TRUE(is_missing(uncertainty_of_mean(BatchBlanks()).u));
}

TEST(LaboratoryFigures, StateNoUncertaintyOfALimit) {
  Laboratory laboratory(laboratory_book("sample,analyte,amount [mg],expanded uncertainty [mg]\nS1,dust,<0.03,0.01\n"));
  EXPECT_TRUE(is_missing(laboratory.of("S1").of_found.expanded));
}

TEST(LaboratoryFigures, HaveNoNetAmountWithoutABlank) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.5,,4\n"));
  EXPECT_TRUE(is_missing(laboratory.of("S1").net));
  EXPECT_TRUE(is_missing(laboratory.of("S1").concentration));
}

TEST(LaboratoryFigures, StateNoUncertaintyByOneBlank) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.5,,4\nB1,dust,0.01,,\n"));
  EXPECT_NEAR(laboratory.of("S1").net, 0.49, 1e-12);
  EXPECT_TRUE(is_missing(laboratory.of("S1").of_net.u));
  EXPECT_TRUE(is_missing(laboratory.of("S1").of_concentration.expanded));
}

// derived: 0.03 mg in 887.25 L. From a limit nothing is taken off.
TEST(LaboratoryFigures, KeepLessThanAsTheConcentrationThatTheLimitMeans) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,<0.03,,\nB1,dust,0.01,0.03,\nB2,dust,0.01,0.03,\n"));
  const ResultFigures figures = laboratory.of("S1");
  EXPECT_TRUE(figures.is_less_than);
  EXPECT_TRUE(is_missing(figures.net));
  EXPECT_NEAR(figures.concentration, 1000 * 0.03 / 887.25, 1e-12);
  EXPECT_TRUE(is_missing(figures.of_concentration.u));
}

// derived: 0.035 - 0.010 mg is less than 0.03; the amount itself is not.
TEST(LaboratoryFigures, StayLessThanWhereTheBlanksLeaveLessThanTheLimit) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.035,0.03,\nB1,dust,0.01,,\nB2,dust,0.01,,\n"));
  EXPECT_TRUE(laboratory.of("S1").is_less_than);
  EXPECT_NEAR(laboratory.of("S1").net, 0.025, 1e-12);
  EXPECT_NEAR(laboratory.of("S1").concentration, 1000 * 0.03 / 887.25, 1e-12);
  Laboratory none_off(laboratory_book(by_amount + "S1,dust,0.03,0.03,\n"), AssessmentPractice());
  EXPECT_FALSE(none_off.of("S1").is_less_than);
}

// derived: 15.34 - 15.31 mg is 0.03, as doubles 0.02999999999999936; the blanks leave it as it is.
TEST(LaboratoryFigures, AreOnTheLimitWhereOnlyTheLastBitOfTheWeightsSaysLess) {
  const std::string weights = "sample,analyte,before [mg],after [mg],limit [mg]\nS1,dust,15.31,15.34,0.03\n";
  Laboratory none_off(laboratory_book(weights), AssessmentPractice());
  EXPECT_FALSE(none_off.of("S1").is_less_than);
  Laboratory off(laboratory_book(weights + "B1,dust,15,15,0.03\nB2,dust,14,14,0.03\n"));
  EXPECT_FALSE(off.of("S1").is_less_than);
}

// derived: the mean of 0 and 0.006 mg; half of them may be anything up to 0.03 mg: 0.03 / 2 / √3, beside 0.00424264 x
// √1.5.
TEST(LaboratoryFigures, CountABlankBelowItsLimitAsNothingAndSayHowFarThatMayBeOff) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.5,,4\nB1,dust,<0.03,,\nB2,dust,0.006,0.03,\n"));
  const ResultFigures figures = laboratory.of("S1");
  EXPECT_NEAR(figures.net, 0.497, 1e-12);
  EXPECT_NEAR(figures.of_blank.u, std::hypot(0.00424264 * std::sqrt(1.5), 0.015 / std::sqrt(3.0)), 5e-9);
  EXPECT_EQ(figures.blanks->unseen, 1U);
}

TEST(LaboratoryFigures, TellABlankAboveItsLimitAndOneWhoseLimitNobodyStates) {
  Laboratory laboratory(laboratory_book(by_amount + "S1,dust,0.5,,\nB1,dust,0.031,0.03,\nB2,dust,0.006,,\n"));
  EXPECT_EQ(laboratory.of("S1").blanks->above_limit, 1U);
  EXPECT_EQ(laboratory.of("S1").blanks->without_limit, 1U);
  Laboratory on_it(laboratory_book(by_amount + "S1,dust,0.5,,\nB1,dust,0.03,0.03,\n"));
  EXPECT_EQ(on_it.of("S1").blanks->above_limit, 0U);
}

TEST(LaboratoryFigures, FormAConcentrationAtReferenceConditionsWhereThePracticeSaysSo) {
  BookText text = laboratory_book();
  text.samples =
      "sample,batch,kind,pump,started,stopped,temperature [°C],pressure [kPa]\n"
      "S1,B,,P1,2026-09-21T08:00,2026-09-21T15:35,10,84.5\nB1,B,blank,,,,,\nB2,B,blank,,,,,\n";
  AssessmentPractice practice = Laboratory::taken_off();
  practice.concentration_volume = ConcentrationVolume::reference;
  Laboratory laboratory(text, practice);
  // derived: ideal gas, 887.25 x 84.5 / 101.325 x 298.15 / 283.15
  EXPECT_NEAR(laboratory.of("S1").volume_l, 887.25 * 84.5 / 101.325 * 298.15 / 283.15, 1e-9);
  EXPECT_NEAR(laboratory.of("S1").concentration, 526 / laboratory.of("S1").volume_l, 1e-12);
  EXPECT_TRUE(is_missing(laboratory.of("S1").of_concentration.u));  // the budget of this test has no such volume
}

// derived: 480 min at 1.7 L/min by convention, of which 1.975 L/min were measured.
TEST(LaboratoryFigures, ShowBesideAConventionWhatWasMeasured) {
  BookText text = nominal_book();
  text.results = by_amount + "S1,dust,0.5,,4\n";
  AssessmentPractice practice;
  practice.flow_for_volume = FlowForVolume::nominal;
  AssessedBook assessed(text, practice);
  const ResultIndex index(assessed.book);
  Budget budget;
  budget.of[static_cast<std::size_t>(BudgetFigure::volume)] = {4.4, 12, 2.18, 9.6};
  const ResultFigures figures = laboratory_figures(index, assessed.basis, assessed.of("S1"), budget).at(0);
  EXPECT_NEAR(figures.concentration, 500 / (1.7 * 480), 1e-12);
  EXPECT_TRUE(is_missing(figures.of_concentration.u));
  EXPECT_NEAR(figures.by_measured_volume, 500 / (1.975 * 480), 1e-9);
  EXPECT_FALSE(is_missing(figures.of_measured.u));
  EXPECT_NEAR(figures.by_nominal_flow, figures.concentration, 1e-9);
}

// derived: 4200 fibres in 887.25 L are 4200 / 887250 a cm³.
TEST(LaboratoryFigures, CountFibresInCubicCentimetres) {
  Laboratory laboratory(laboratory_book("sample,analyte,amount [fibres]\nS1,fibres,4200\n"), AssessmentPractice());
  EXPECT_NEAR(laboratory.of("S1").concentration, 4200 / 887250.0, 1e-12);
}

TEST(LaboratoryFigures, SayNothingWhereARowOfASampleOrItsBlankCanNotBeUnderstood) {
  for (const std::string rows : {"S1,dust,x,,\nB1,dust,0.01,,\n", "S1,dust,0.5,,\nB1,dust,x,,\n"}) {
    Laboratory laboratory(laboratory_book(by_amount + rows));
    EXPECT_TRUE(is_missing(laboratory.of("S1").net)) << rows;
    EXPECT_TRUE(is_missing(laboratory.of("S1").concentration)) << rows;
    EXPECT_NE(laboratory.index.problem_of(row_of(laboratory.assessed.book, "S1")), no_problem) << rows;
  }
  Laboratory sound(laboratory_book());
  EXPECT_EQ(sound.index.problem_of(row_of(sound.assessed.book, "S1")), no_problem);
}

TEST(LaboratoryFigures, OfABlankTakeNothingOff) {
  Laboratory laboratory(laboratory_book());
  EXPECT_TRUE(is_missing(laboratory.of("B1").of_found.u));  // none is stated
  EXPECT_TRUE(is_missing(laboratory.of("B1").net));
  EXPECT_TRUE(is_missing(laboratory.of("B1").concentration));
}

TEST(LaboratoryFigures, AreNoneOfABookWithoutResults) {
  const Book book = book_of(BookText());
  EXPECT_TRUE(ResultIndex(book).empty());
  EXPECT_TRUE(ResultIndex(book).of(0).empty());
}

AssessmentPractice controls_off() {
  AssessmentPractice practice;
  practice.control_correction = ControlCorrection::mean;
  return practice;
}

// own input: weights of 15.31 and 15.842 mg, known by the balance to 0.002031 and 0.0041684 mg, and control filters
// that gained 0.002 and 0.004 mg; computed with NumPy 1.24 and SciPy 1.10 by
// tests/support/computed_records.py.
TEST(LaboratoryFigures, TakeTheControlFiltersOffWhatWasWeighed) {
  Laboratory laboratory(weighing_book(), controls_off());
  const ResultFigures figures = laboratory.of("S1");
  EXPECT_EQ(figures.controls->filters, (std::vector<std::uint32_t>{0, 1}));
  EXPECT_TRUE(figures.is_by_balance);
  EXPECT_NEAR(figures.of_found.u, 0.00463687, 5e-9);
  EXPECT_NEAR(figures.net, 0.529, 1e-12);
  EXPECT_NEAR(figures.of_blank.u, 0.00173205, 5e-9);
  EXPECT_NEAR(figures.of_net.u, 0.0049498, 5e-9);
  EXPECT_NEAR(figures.of_net.dof, 66.7, 0.05);
  EXPECT_EQ(figures.taken_off, TakenOff::controls);
}

// derived: 0.532 - 0.007 mg of the one blank.
TEST(LaboratoryFigures, LeaveTheControlFiltersWhereBlanksAreTakenOff) {
  AssessmentPractice both = controls_off();
  both.blank_correction = BlankCorrection::mean;
  Laboratory laboratory(weighing_book(), both);
  EXPECT_NEAR(laboratory.of("S1").net, 0.525, 1e-12);
  EXPECT_EQ(laboratory.of("S1").taken_off, TakenOff::blanks);
}

// derived: 15.842 - 15.310.
TEST(LaboratoryFigures, LeaveTheControlFiltersWhereNobodyTakesThemOff) {
  Laboratory laboratory(weighing_book(), AssessmentPractice());
  EXPECT_NEAR(laboratory.of("S1").net, 0.532, 1e-12);
  EXPECT_EQ(laboratory.of("S1").controls->changes.n, 2U);
}

TEST(LaboratoryFigures, TakeNoControlFilterOffAnAmountThatWasNotWeighed) {
  Laboratory laboratory(weighing_book("sample,analyte,amount [mg],before [mg],after [mg],kind,batch\n"
                                      "S1,dust,0.5,,,,\nCF-1,dust,,15,15.002,control,B\n"),
                        controls_off());
  EXPECT_EQ(laboratory.of("S1").net, 0.5);
  EXPECT_TRUE(laboratory.of("S1").controls->filters.empty());
}

// derived: 1 - 0.002 mg.
TEST(LaboratoryFigures, HaveNoNetAmountWithoutTheControlFilterThatIsToBeTakenOff) {
  Laboratory none(weighing_book("sample,analyte,before [mg],after [mg]\nS1,dust,15,16\n"), controls_off());
  EXPECT_TRUE(is_missing(none.of("S1").net));
  Laboratory one(weighing_book("sample,analyte,before [mg],after [mg],expanded uncertainty [%],kind,batch\n"
                               "S1,dust,15,16,4,,\nCF-1,dust,15,15.002,,control,B\nCF-2,dust,15,15.1,,control,C\n"
                               "CF-3,quartz,15,15.1,,control,B\n"),
                 controls_off());
  EXPECT_NEAR(one.of("S1").net, 0.998, 1e-12);
  EXPECT_TRUE(is_missing(one.of("S1").of_net.u)) << "one does not tell how they scatter";
}

// What the laboratory states of its mass has the balance in it.
// derived: 0.010 mg over 2.
TEST(LaboratoryFigures, CountTheBalanceOnlyWhereTheRowStatesNoUncertainty) {
  Laboratory laboratory(
      weighing_book("sample,analyte,before [mg],after [mg],expanded uncertainty [mg],balance,weighed after\n"
                    "S1,dust,15.310,15.842,0.010,MB-2,2026-09-28\n"),
      AssessmentPractice());
  EXPECT_FALSE(laboratory.of("S1").is_by_balance);
  EXPECT_EQ(laboratory.of("S1").of_found.u, 0.005);
}

TEST(LaboratoryFigures, AreInDoubtWhereAControlFilterOrTheBalanceIs) {
  Laboratory of_control(weighing_book("sample,analyte,before [mg],after [mg],kind,batch\n"
                                      "S1,dust,15,16,,\nCF-1,dust,15,x,control,B\n"),
                        controls_off());
  EXPECT_NE(of_control.index.problem_of(row_of(of_control.assessed.book, "S1")), no_problem);
  BookText text = weighing_book();
  text.balances.replace(text.balances.find("M2,MB-2,2026-09-21"), 18, "M2,MB-2,soon");
  Laboratory of_balance(text, AssessmentPractice());
  EXPECT_NE(of_balance.index.problem_of(row_of(of_balance.assessed.book, "S1")), no_problem);
}

}  // namespace
}  // namespace driftwarden::laboratory_figures_test

// SPDX-License-Identifier: MIT
#include "statistics/resemblance.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "statistics/mean_and_spread.hpp"
#include "statistics/random_numbers.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden::resemblance_test {
namespace {

using Values = std::vector<double>;

Values chain(std::size_t n, double phi, test::RandomNumbers& random) {
  Values values{random.normal()};
  while (values.size() < n) values.push_back(phi * values.back() + std::sqrt(1 - phi * phi) * random.normal());
  return values;
}

// Simulated here, so the tolerance is three standard errors and what an expansion of first order leaves out.
TEST(Resemblance, IsFreeOfTheBiasOfTheLagOneAutocorrelation) {
  test::RandomNumbers random(7);
  for (const double phi : {0.3, 0.6}) {
    double plain = 0;
    PooledResemblance pooled;
    constexpr int trials = 4000;
    for (int i = 0; i < trials; ++i) {
      const Values values = chain(30, phi, random);
      plain += lag_one_autocorrelation(values) / trials;
      pooled.add(resemblance_of(values));
    }
    EXPECT_LT(plain, phi - 0.05);
    EXPECT_NEAR(pooled.of_all().phi, phi, 0.02);
  }
}

TEST(Resemblance, OfWhatALineLeavesIsFreedOfTwiceAsMuch) {
  test::RandomNumbers random(8);
  PooledResemblance pooled;
  Values days(30);
  for (std::size_t i = 0; i < days.size(); ++i) days[i] = static_cast<double>(i);
  for (int trial = 0; trial < 2000; ++trial) {
    Values values = chain(days.size(), 0.3, random);
    const LineFit line = *fit_line(days, values);
    for (std::size_t i = 0; i < days.size(); ++i) values[i] -= line.at(days[i]);
    pooled.add(residual_resemblance(values));
  }
  EXPECT_NEAR(pooled.of_all().phi, 0.3, 0.03);
}

TEST(Resemblance, IsReckonedWithOnTheCautiousSide) {
  EXPECT_EQ(Resemblance{}.cautious(), 0);
  EXPECT_DOUBLE_EQ((Resemblance{0.2, 25}.cautious()), 0.5);
  EXPECT_EQ((Resemblance{0.9, 9}.cautious()), 0.85);
  EXPECT_EQ((Resemblance{-0.4, 100}.at_least_zero()), 0);
}

TEST(Resemblance, OfFewOrEqualValuesSaysNothing) {
  EXPECT_EQ(resemblance_of(Values{1, 2, 1}).n, 0U);
  EXPECT_EQ(resemblance_of(Values{1, 1, 1, 1, 1}).n, 0U);
}

// By hand: 1 + 2 (2/3 · 0.5 + 1/3 · 0.25).
TEST(InflationOfAMean, IsThatOfASumOfNeighbours) {
  EXPECT_NEAR(inflation_of_a_mean(3, 0.5), 1 + 2 * (2.0 / 3 * 0.5 + 1.0 / 3 * 0.25), 1e-15);
  EXPECT_EQ(inflation_of_a_mean(1, 0.5), 1);
  EXPECT_NEAR(inflation_of_a_mean(100000, 0.6), inflation_of_many(0.6), 1e-3);
  EXPECT_DOUBLE_EQ(points_for_the_spread(34, 0.6), 16);
}

// By hand: before 10, 12, 11, 13, 9 have the mean 11 and s² 2.5; (15 - 11)/√(2.5 · 1.2) = 2.3094, 4 degrees of freedom.
TEST(StepTest, IsThePredictionIntervalOfStudentsT) {
  const StepTest test = step_test(Values{10, 12, 11, 13, 9}, Values{15}, 0);
  EXPECT_NEAR(test.difference, 4, 1e-14);
  EXPECT_NEAR(test.t, 4 / std::sqrt(3.0), 1e-12);
  EXPECT_EQ(test.dof, 4);
  EXPECT_NEAR(test.p, student_t_two_sided_p(4 / std::sqrt(3.0), 4), 1e-15);
  EXPECT_TRUE(std::isnan(step_test(Values{2, 2, 2}, Values{3}, 0).p));
  EXPECT_TRUE(std::isnan(step_test(Values{2}, Values{3}, 0).p));
}

// Answers of a question that nothing is behind come as often as it says, in fives of a hundred and in ones.
// input: points, and chances. On its limits a next point has just that p.
TEST(LimitsOfNext, AreWhereTheStepTestAnswersSo) {
  const Values before{10, 12, 11, 13, 9};
  for (const double phi : {0.0, 0.4}) {
    for (const double p : {0.0027, 0.2}) {
      const Bounds limits = limits_of_next(before, phi, p);
      EXPECT_NEAR(step_test(before, Values{limits.upper}, phi).p, p, 1e-9);
      EXPECT_NEAR(step_test(before, Values{limits.lower}, phi).p, p, 1e-9);
      EXPECT_NEAR(limits.lower + limits.upper, 22, 1e-12);
    }
  }
  EXPECT_TRUE(std::isnan(limits_of_next(Values{3}, 0, 0.1).lower));
  EXPECT_TRUE(std::isnan(limits_of_next(Values{3, 3, 3}, 0, 0.1).lower));
}

TEST(StepTest, IsAnsweredByChanceAsOftenAsItSays) {
  test::RandomNumbers random(11);
  for (const double phi : {0.0, 0.6}) {
    int answers = 0;
    constexpr int trials = 4000;
    for (int i = 0; i < trials; ++i) {
      const Values values = chain(24, phi, random);
      const std::span<const double> all(values);
      answers += step_test(all.first(20), all.last(4), phi).p < 0.01 ? 1 : 0;
    }
    EXPECT_LT(answers, trials * 0.017) << phi;  // derived: 1.7 times the stated 1 %
    EXPECT_GT(answers, trials * 0.002) << phi;  // derived: a fifth of it
  }
}

// By hand: distances 0.15 0.15 0.35 0.35 0.55 0.55; of 15 pairs 12 rise and 3 are ties, so that
// var S = (6·5·17 - 3·2·1·9)/18 = 25.33 and z = 11/5.033; its p by Φ.
TEST(GrowingScatter, IsMannAndKendallsTestOfTheDistances) {
  EXPECT_NEAR(growing_scatter_p(Values{0.1, -0.2, 0.3, -0.4, 0.5, -0.6}, 0),
              0.5 * std::erfc(11 / std::sqrt(2 * 456.0 / 18)), 1e-9);  // derived: above
}

TEST(GrowingScatter, IsSeenWhateverTheSigns) {
  const double p = growing_scatter_p(Values{0.1, -0.2, 0.3, -0.4, 0.5, -0.6, 0.7, -0.8}, 0);
  EXPECT_LT(p, 0.002);  // derived: as above, S = 24, var S = 61.33, z = 2.94
  EXPECT_GT(growing_scatter_p(Values{-0.8, 0.7, -0.6, 0.5, -0.4, 0.3, -0.2, 0.1}, 0), 0.99);
  EXPECT_GT(growing_scatter_p(Values{0.1, -0.2, 0.3, -0.4, 0.5, -0.6, 0.7, -0.8}, 0.6), p);
  EXPECT_TRUE(std::isnan(growing_scatter_p(Values{1, 2, 3, 4}, 0)));
}

TEST(GrowingScatter, IsAnsweredByChanceAsOftenAsItSays) {
  test::RandomNumbers random(12);
  for (const double phi : {0.0, 0.6}) {
    int answers = 0;
    constexpr int trials = 4000;
    for (int i = 0; i < trials; ++i) answers += growing_scatter_p(chain(20, phi, random), phi) < 0.01 ? 1 : 0;
    EXPECT_LT(answers, trials * 0.017) << phi;  // derived: 1.7 times the stated 1 %
    if (phi == 0) {
      EXPECT_GT(answers, trials * 0.005);  // derived: half of it
    }
  }
}

TEST(ResemblingLine, IsWiderAndKeepsItsSlope) {
  const Values days{0, 1, 2, 3, 4, 5, 6, 7, 8, 9};
  const Values values{0.1, 0.3, 0.2, 0.5, 0.6, 0.5, 0.8, 0.9, 0.8, 1.1};
  const LineFit line = *fit_line(days, values);
  const LineFit same = resembling(line, 0);
  EXPECT_EQ(same.slope_se(), line.slope_se());
  EXPECT_EQ(same.dof, line.dof);
  const LineFit wider = resembling(line, 0.5);
  EXPECT_EQ(wider.slope, line.slope);
  EXPECT_NEAR(wider.slope_variance / line.slope_variance, 3 * 8.0 / 4, 1e-12);  // V 3, (n - 2)/(n - 2V) = 8/4
  EXPECT_NEAR(wider.dof, 10 * 0.75 / 1.25 - 2, 1e-12);
}

// Two hundred pumps with sixty uses each, correlation 0.6: 65 had a "resolved" trend where 10 are chance's.
TEST(ResemblingLine, IsResolvedByChanceAsOftenAsItSays) {
  test::RandomNumbers random(13);
  Values days(60);
  for (std::size_t i = 0; i < days.size(); ++i) days[i] = static_cast<double>(i);
  int plain = 0;
  int corrected = 0;
  constexpr int trials = 1000;
  for (int i = 0; i < trials; ++i) {
    const LineFit line = *fit_line(days, chain(days.size(), 0.6, random));
    plain += line.slope_p() < 0.05 ? 1 : 0;
    corrected += resembling(line, 0.6).slope_p() < 0.05 ? 1 : 0;
  }
  EXPECT_GT(plain, trials * 0.25);
  EXPECT_LT(corrected, trials * 0.07);
  EXPECT_GT(corrected, trials * 0.02);
}

// By hand: 0, 0, 1, 1 have r = 0.25 and 0, 1, 0, 1 have -0.75, which counts as 0 in the bias.
TEST(Resemblance, HasTheBiasOfItsFormula) {
  EXPECT_NEAR(resemblance_of(Values{0, 0, 1, 1}).phi, 0.25 + (1 + 4 * 0.25) / 4, 1e-12);
  EXPECT_NEAR(residual_resemblance(Values{0, 0, 1, 1}).phi, 0.25 + (2 + 4 * 0.25) / 4, 1e-12);
  EXPECT_NEAR(resemblance_of(Values{0, 1, 0, 1}).phi, -0.75 + 1.0 / 4, 1e-12);
  EXPECT_NEAR(residual_resemblance(Values{0, 1, 0, 1}).phi, -0.75 + 2.0 / 4, 1e-12);
  EXPECT_EQ(resemblance_of(Values{0, 0, 1, 1}).n, 4U);
}

TEST(Resemblance, OfNothingPooledOrOfTheContraryIsNone) {
  EXPECT_EQ(PooledResemblance().of_all().phi, 0);
  EXPECT_EQ(PooledResemblance().of_all().n, 0U);
  EXPECT_EQ((Resemblance{-0.9, 100}.cautious()), 0);
}

TEST(InflationOfAMean, OfTwoHasOneTerm) { EXPECT_NEAR(inflation_of_a_mean(2, 0.6), 1.6, 1e-15); }

// By hand: before 1, 3 have the mean 2 and s² 2; V of two is 1 + 0.6. 2 - 1.6 is taken for 1, and so is 2 · 0.64/1.36
// - 1.
TEST(StepTest, OfPointsThatResembleEachOtherIsWider) {
  const StepTest one = step_test(Values{1, 3}, Values{5}, 0.6);
  EXPECT_NEAR(one.t, 3 / std::sqrt(2 * (1 + 1.6 / 2)), 1e-12);
  EXPECT_EQ(one.dof, 1);
  EXPECT_NEAR(step_test(Values{1, 3}, Values{5, 5}, 0.6).t, 3 / std::sqrt(2 * (1.6 / 2 + 1.6 / 2)), 1e-12);
  EXPECT_NEAR(step_test(Values{1, 3}, Values{5}, 0).t, 3 / std::sqrt(3.0), 1e-12);
}

TEST(StepTest, NeedsTwoPointsBeforeAndOneNow) {
  EXPECT_TRUE(std::isnan(step_test(Values{2}, Values{3}, 0).difference));
  EXPECT_TRUE(std::isnan(step_test(Values{1, 2, 3}, Values{}, 0).dof));
}

// By hand: distances 0 0 0 0 0 with S = 0, and 0 1 2 1 0.5 with S = 1, whose z is 0.
TEST(GrowingScatter, IsOneSided) {
  EXPECT_EQ(growing_scatter_p(Values{2, 2, 2, 2, 2}, 0), 1);
  EXPECT_NEAR(growing_scatter_p(Values{0, 1, 2, -1, -0.5}, 0), 0.5, 1e-12);
}

// By hand: V = 3 at φ = 0.5; ten points (8/4, 4 degrees of freedom), six (4/1, since 4 + 2 - 6 is taken for 1) and
// four.
TEST(ResemblingLine, IsWiderInAllItsParts) {
  const Values days{0, 1, 2, 3, 4, 5, 6, 7, 8, 9};
  const Values values{0.1, 0.3, 0.2, 0.5, 0.6, 0.5, 0.8, 0.9, 0.8, 1.1};
  const auto line_of = [&](std::size_t n) { return *fit_line(std::span(days).first(n), std::span(values).first(n)); };
  const LineFit ten = line_of(10);
  EXPECT_NEAR(resembling(ten, 0.5).residual_s / ten.residual_s, std::sqrt(2.0), 1e-12);
  EXPECT_NEAR(resembling(ten, 0.5).residual_variance_of_one / ten.residual_variance_of_one, 2, 1e-12);
  EXPECT_NEAR(resembling(ten, 0.5).centre_variance / ten.centre_variance, 6, 1e-12);
  EXPECT_NEAR(resembling(line_of(6), 0.5).slope_variance / line_of(6).slope_variance, 12, 1e-12);
  EXPECT_EQ(resembling(line_of(4), 0.5).dof, 1);
  EXPECT_NEAR(resembling(line_of(3), 0.5).slope_variance / line_of(3).slope_variance, 3, 1e-12);
  EXPECT_GT(resembling(ten, 0.02).slope_variance, ten.slope_variance);
  EXPECT_EQ(resembling(ten, -0.5).slope_variance, ten.slope_variance);
  EXPECT_EQ(resembling(line_of(2), 0.5).dof, 0);
}

}  // namespace
}  // namespace driftwarden::resemblance_test
